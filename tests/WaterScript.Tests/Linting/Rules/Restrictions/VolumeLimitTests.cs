using System.Globalization;
using NodaTime;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Tests.Simulation;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Linting.Rules.Restrictions;

/// <summary>Volumes that a restriction limits: by counting every second, and at the edge, worked out by hand.</summary>
public sealed class VolumeLimitTests
{
    private const int Days = 9;
    private const string Probe = "probe-of-volume";
    private static readonly string[] Periods = ["day", "week", "month", "year"];
    private static readonly int SitesEach = Samples.OfBatch(40);

    public static TheoryData<int> Batches => [.. Samples.Batches(5)];

    /// <summary>
    /// Which zones are open in a second by the runs of the reference, which date the clock shows by Noda Time, and a sixtieth of the flow as written.
    /// </summary>
    [Theory]
    [MemberData(nameof(Batches))]
    public void Periods_with_too_much_water_are_those_of_counting_every_second(int batch)
    {
        var (compared, over) = (0, 0L);
        for (var number = batch * SitesEach; number < (batch + 1) * SitesEach; number++)
        {
            var source = RandomSource.Of(60_000 + number);
            var period = Periods[number % Periods.Length];
            var litres = 20 * (1 + (number % 17));
            var line = string.Create(CultureInfo.InvariantCulture,
                $"at most {litres} L a {period}{(number % 3 == 0 ? " per zone" : "")}; week starts wed");
            var text = $"{source.Text}\nrestriction {Probe} {{ {line} }}\n";
            if (RandomRunsTests.Read(text, out _) is not { } site) continue;
            over += Agree(site, Horizon.DaysFrom(source.From, Days), litres, period, number % 3 == 0, $"number {number}\n{text}");
            compared++;
        }

        Assert.True(compared > SitesEach / 2, $"only {compared} sites");
        if (Samples.AreAll) Assert.True(over > SitesEach, $"only {over} periods over");
    }

    private static long Agree(Site site, Horizon horizon, int litres, string period, bool isPerZone, string context)
    {
        var report = Linter.Check(site, horizon);
        // Of dates beyond its limit of work a check says that it has not looked at them.
        if (report.IsCut) return 0;
        var sums = new Dictionary<(LocalDate Period, int Zone), decimal>();
        var open = new HashSet<(int Zone, long Second)>();
        foreach (var run in ReferenceRuns.Of(site, horizon))
        {
            for (var second = run.Start; second < run.End; second++)
            {
                if (!open.Add((run.Zone, second))) continue;
                var key = (StartOf(period, Instant.FromUnixTimeSeconds(second).InZone(site.TimeZone).Date), isPerZone ? run.Zone : -1);
                sums[key] = sums.GetValueOrDefault(key) + site.Zones[run.Zone].Flow!.Value.Value.Value;
            }
        }

        var expected = sums.Values.Where(sixtieths => sixtieths > litres * 60).ToList();
        var found = report.Findings.Where(finding => finding.Rule.Slug == "volume-limit").ToList();
        Assert.True(found.Sum(finding => finding.Happens!.Times) == expected.Count,
            $"{found.Sum(finding => finding.Happens!.Times)} periods, not {expected.Count}\n{context}");
        if (expected.Count > 0) Assert.Equal(Math.Round((expected.Max() / 60) - litres, 5), Math.Round(Assert.Single(found).Excess!.Value, 5));
        return expected.Count;
    }

    private static LocalDate StartOf(string period, LocalDate date) => period switch
    {
        "day" => date,
        "week" => date.With(DateAdjusters.PreviousOrSame(IsoDayOfWeek.Wednesday)),
        "month" => new LocalDate(date.Year, date.Month, 1),
        _ => new LocalDate(date.Year, 1, 1),
    };

    /// <summary>31 times 10 min at 10 L/min are 3100 L in July, 3000 L in June: by hand.</summary>
    [Theory]
    [InlineData("from 1 jun to 31 jul; at most 3 m3 a month", 2)]
    [InlineData("from 1 jun to 31 jul; at most 3.1 m3 a month", 0)]
    [InlineData("from 1 jul to 30 jul; at most 3 m3 a month", 0)]
    [InlineData("from 1 jun to 31 jul; at most 6.1 m3 a season", 0)]
    [InlineData("from 1 jun to 31 jul; at most 6099 L a season", 2)]
    [InlineData("from 15 dec to 14 jan; at most 3099 L a season", 2)]
    [InlineData("from 1 jun to 31 jul; exempt lawn from 2026-07-31 for 1 day; at most 3 m3 a month", 1)]
    [InlineData("at most 100 L a day", 0)]
    [InlineData("at most 99.9 L a day", 610)]
    [InlineData("at most 26 gal a day", 610)]
    [InlineData("at most 27 gal a day", 0)]
    public void As_much_as_is_allowed_is_within(string lines, int times)
    {
        var site = RandomRunsTests.Read($$"""
            site plot { timezone UTC; effective 2026-06-01 }
            zone lawn { output 1; flow 10 L/min }
            restriction r { {{lines}} }
            schedule s { every day; start at 05:00; steps { water lawn for 10 min } }
            """, out var errors) ?? throw new InvalidOperationException(errors);
        var found = Linter.Check(site, new Horizon(new LocalDate(2026, 6, 1), new LocalDate(2028, 2, 1))).Findings
            .Where(finding => finding.Rule.Slug == "volume-limit").ToList();
        Assert.Equal(times, found.Sum(finding => finding.Happens!.Times));
    }
}
