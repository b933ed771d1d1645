using System.Globalization;
using System.Text;

namespace WaterScript.Tests.Hostile;

/// <summary>Sites of less than 10 kB that ask for as much work as the language lets them. Each is named after what it multiplies.</summary>
public static partial class HostileSites
{
    /// <summary>The longest that one of them is, in characters.</summary>
    public const int MostCharacters = 10_000;

    private const string Head =
        "site s { timezone Europe/Lisbon; location 38.7 N 9.1 W; effective 2026-01-01 }\nsupply tap { flow 20 L/min }\ncontroller box { outputs 200 }\n";
    private const string OneZone = Head + "zone a { output 1; flow 2 L/min }\n";

    private static readonly int[] Primes =
        [.. Enumerable.Range(2, 2000).Where(n => Enumerable.Range(2, Math.Max(0, (int)Math.Sqrt(n) - 1)).All(d => n % d != 0))];

    /// <summary>All of them, by name.</summary>
    public static IReadOnlyDictionary<string, string> All { get; } =
        Passes().Concat(Dates()).Concat(Lists()).Concat(Takers()).Concat(Reading()).Concat(Judged()).ToDictionary(StringComparer.Ordinal);

    /// <summary>Passes, and repeats within them.</summary>
    private static Dictionary<string, string> Passes() => new()
    {
        ["repeat-in-repeat"] = OneZone
            + "schedule x { every day; start at 00:00; repeat every 20 s for 4000 passes; "
            + "steps { repeat 300 times { repeat 300 times { water a for 1 s } } } }\n",
        ["passes-every-5-s"] = OneZone + "schedule x { every day; start at 00:00; repeat every 5 s until 24:00; steps { water a for 1 s } }\n",
        ["passes-of-ten-zones"] = Zones(10) + "schedule x { every day; start at 00:00; repeat every 5 s until 24:00; steps { water all for 1 s } }\n",
        ["hundred-thousand-runs"] = OneZone + "schedule x { every day; start at 00:00; steps { repeat 50000 times { water a for 1 s; pause 1 s } } }\n",
        ["many-starts"] = OneZone + "schedule x { every day; " + Each(300, i => $"start at {Time(i * 17)}; ")
            + "repeat every 60 s until 24:00; steps { water a for 1 s } }\n",
        ["hundred-schedules-thousand-passes"] = Zones(20)
            + Each(80, i => $"schedule s{i} {{ every day; start at 00:00; repeat every 80 s for 1000 passes; steps {{ water a{i % 20} for 20 s }} }}\n"),
        ["hundred-schedules-one-zone"] = OneZone
            + Each(90, i => $"schedule s{i} {{ every day; start at 00:00; repeat every 80 s for 1000 passes; steps {{ water a for 70 s }} }}\n"),
        ["passes-all-at-once"] = OneZone + "schedule x { every day; start at 00:00; repeat every 1 s for 20000 passes; steps { water a for 6 h } }\n",
        ["long-passes-all-at-once"] = OneZone + "schedule x { every day; start at 00:00; repeat every 1 min for 500 passes; steps { water a for 300 days } }\n",
        ["start-after-chain"] = OneZone + "schedule s0 { every day; start at 00:00; repeat every 10 s for 4000 passes; steps { water a for 1 s } }\n"
            + Each(39, i => $"schedule s{i + 1} {{ start after s{i}; steps {{ repeat 100 times {{ water a for 1 s }} }} }}\n"),
        ["start-after-chain-held"] = OneZone + "hold a from 2026-01-01 until lifted because \"x\"\n"
            + "schedule s0 { every day; start at 00:00; repeat every 10 s for 4000 passes; steps { repeat 1000 times { water a for 1 s } } }\n"
            + Each(39, i => $"schedule s{i + 1} {{ start after s{i}; steps {{ repeat 1000 times {{ water a for 1 s }} }} }}\n"),
        ["start-after-many"] = OneZone + "schedule s0 { every day; start at 00:00; steps { water a for 1 s } }\n"
            + Each(20, i =>
                $"schedule s{i + 1} {{ every day; {Each(i + 1, j => $"start after s{j}; ")} repeat every 1 h for 20 passes; steps {{ water a for 1 s }} }}\n"),
        ["finish-by-a-year"] = OneZone
            + Each(60, i => $"schedule s{i} {{ every day; finish by 06:00; repeat every 1 day for 300 passes; steps {{ water a for 20 days }} }}\n"),
        ["sun-passes"] = OneZone + Each(70, i =>
            $"schedule s{i} {{ every day; start at sunrise + {i + 1} min; repeat every 30 s until sunset + 6 h; steps {{ water a for 1 s }} }}\n"),
        ["many-sun-starts"] = OneZone + "schedule x { every day; " + Each(250, i => $"start at sunrise + {i + 1} min; ") + "steps { water a for 1 s } }\n",
        ["manual-walks"] = OneZone + Each(90, i => $"schedule s{i} {{ manual; steps {{ repeat 300 times {{ repeat 300 times {{ water a for 1 s }} }} }} }}\n"),
        ["plans-in-memory"] = OneZone + Each(90, i => $"schedule s{i} {{ on 1 jan; start at 00:00; steps {{ repeat 99999 times {{ water a for 1 s }} }} }}\n"),
        ["sequences-doubled"] = OneZone + Each(16, i => i == 0 ? "sequence q0 { water a for 1 s }\n" : $"sequence q{i} {{ run q{i - 1}; run q{i - 1} }}\n")
            + "schedule x { every day; start at 00:00; repeat every 1 min for 1000 passes; steps { run q15 } }\n",
    };

    /// <summary>Dates far away, and days that are hard to find.</summary>
    private static Dictionary<string, string> Dates() => new()
    {
        ["date-in-2120"] = OneZone + "schedule x { every day; from 2120-01-01 to 2120-12-31; start at 00:00; steps { water a for 1 s } }\n"
            + "schedule y { every day; start at 01:00; repeat every 30 min until 23:00; steps { water a for 5 s } }\n",
        ["dates-to-2199"] = OneZone + Each(100, i => $"schedule s{i} {{ on 2199-01-01; start at 00:00; steps {{ water a for 1 s }} }}\n"),
        ["daily-to-2199"] = OneZone
            + "schedule x { every day; from 2026-01-01 to 2199-01-01; start at 00:00; repeat every 1 min until 24:00; steps { water a for 1 s } }\n",
        ["effective-1900"] = OneZone.Replace("2026-01-01", "1900-01-01")
            + "schedule x { every day; start at sunrise; repeat every 5 min until sunset; steps { water a for 1 s } }\n"
            + "schedule y { on 2199-01-01; start at 00:00; steps { water a for 1 s } }\n",
        ["effective-2199"] = OneZone.Replace("2026-01-01", "2199-01-01")
            + "schedule x { every day; start at sunrise; repeat every 5 min until sunset; steps { water a for 1 s } }\n",
        ["days-of-everything"] = OneZone + "schedule x {\n" + Each(230, i => $"on first mon of month, days {i % 28 + 1} of month\n")
            + "start at 00:00; steps { water a for 1 s } }\nschedule y { on 2199-01-01; start at 00:00; steps { water a for 1 s } }\n",
        ["hundreds-of-excepts"] = OneZone + "schedule x { every day\n" + Each(230, i => $"except every {i + 2} weeks on mon, tue, wed\n")
            + "start at 00:00; steps { water a for 1 s } }\nschedule y { on 2199-01-01; start at 00:00; steps { water a for 1 s } }\n",
        ["coprime-pairs"] = OneZone + Each(110, i => $"schedule s{i} {{ every {Primes[i + 60]} days; start at {Time(i % 7)}; steps {{ water a for 1 h }} }}\n"),
        ["coprime-starts"] = OneZone + Each(20, i =>
            $"schedule s{i} {{ every {Primes[i + 80]} days; {Each(24, j => $"start at {Time((j * 60) + i)}; ")}steps {{ water a for 1 min }} }}\n"),
        ["coprime-long"] = OneZone + Each(80, i =>
            $"schedule s{i} {{ every {Primes[i + 90]} days; start at {Time(i)}; steps {{ repeat 1000 times {{ water a for 10 min; pause 10 min }} }} }}\n"),
        ["never-overlap-pairs"] = Zones(60).Replace("outputs 200", "outputs 200; schedules never-overlap")
            + Each(60, i => $"schedule s{i} {{ every {i + 5} days; start at {Time(i)}; steps {{ water a{i} for 1 min }} }}\n"),
    };

    private static string Zones(int count) => Head + Each(count, i => $"zone a{i} {{ output {i + 1}; flow 2 L/min }}\n");

    private static string Each(int count, Func<int, string> text)
    {
        var all = new StringBuilder();
        for (var i = 0; i < count; i++) all.Append(text(i));
        return all.ToString();
    }

    private static string Names(int count) => string.Join(", ", Enumerable.Range(0, count).Select(i => string.Create(CultureInfo.InvariantCulture, $"a{i}")));

    private static string Time(int minute) => string.Create(CultureInfo.InvariantCulture, $"{minute / 60 % 24:00}:{minute % 60:00}");
}
