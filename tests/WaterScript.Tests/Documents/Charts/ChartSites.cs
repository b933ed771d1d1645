using WaterScript.Documents.Charts;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Timetables;
using Xunit;

namespace WaterScript.Tests.Documents.Charts;

/// <summary>Charts of many kinds, by name: each example, and sites that need what examples do not have.</summary>
internal static class ChartSites
{
    public const string WithFindings = """
        site s "A site with <b>findings</b>" { timezone Europe/Lisbon; effective 2026-05-01; location 39.6 N 8.1 W }
        supply tap { flow 20 L/min }
        zone a "A zone whose name is much longer than there is room for in any picture" { output 1; flow 25 L/min }
        zone a2 "A zone whose name is much longer than there is room for in any picture 2" { output 3; flow 2 L/min }
        zone b { output 2; flow 5 L/min }
        restriction town { allow between 20:00 and 06:00 }
        restriction club "Club, no spray in the match" { for b; allow between 22:00 and 05:30 }
        schedule day { every day; start at 05:45, 14:00; steps { water a + b for 30 min } }
        schedule late { every day; start at 23:10; steps { water a2 for 2 min; pause 4 min; water b for 75 s } }
        """;

    private const string Held = """
        site s "Held" { timezone America/Denver; effective 2026-05-01; location 40.3 N 104.6 W 4800 ft }
        supply main { flow 40 gpm }
        pump booster { output 8; supply main; starts 2 s after zones }
        zone a { output 1; flow 20 gpm; area 2000 ft2 }
        zone b { output 2; flow 12 gpm }
        hold a from 2026-06-08 06:00 to 2026-06-10 18:00 because "slit seeding: the ground must carry the machine"
        closed from 20 jun to 10 jul because "shut"
        schedule s { every day; start at 21:30; steps { repeat 3 times { water a for 11 min; water b for 9 min } } }
        schedule t { every day; start at 11:40; steps { water b for 50 min } }
        """;

    private const string Mist = """
        site s { timezone Europe/Lisbon; effective 2026-01-01; location 39.6 N 8.1 W }
        supply tap { flow 30 L/min }
        controller box { outputs 8; power { transformer 20 VA at 24 V } }
        valve ac non-latching { inrush 0.3 A; holding 0.25 A }
        zone a "Bench A" { output 1; valve ac; flow 6 L/min }
        zone b "Bench B" { output 2; valve ac; flow 6 L/min }
        schedule mist { every day; start at 13:00; repeat every 8 min until 19:00; steps { water a for 12 s } }
        schedule fog { every day; start at 00:30; repeat every 2 min until 05:00; steps { water b for 5 s } }
        schedule more { every day; start at 14:02; steps { water b for 20 min; water a for 3 min } }
        """;

    /// <summary>All of them, for theories.</summary>
    public static TheoryData<string> Names => [.. All];

    /// <summary>All of them.</summary>
    public static IReadOnlyList<string> All { get; } =
        [.. ExampleTests.Roots.Cast<object[]>().Select(row => (string)row[0]), .. ExampleTests.Roots.Cast<object[]>().Select(row => $"{row[0]} week"),
            "findings", "findings week", "held", "held week", "held noon", "mist", "mist week", "spring", "autumn", "eighty", "twelve week", "empty"];

    /// <summary>The chart of a name.</summary>
    public static Chart Of(string name)
    {
        var days = name.EndsWith(" week", StringComparison.Ordinal) ? 7 : 1;
        return name.Split(' ')[0] switch
        {
            "findings" => Charts.Of(WithFindings, "2026-10-23", days),
            "held" => Charts.Of(Held, name == "held noon" ? "2026-06-20" : "2026-06-08", days),
            "mist" => Charts.Of(Mist, "2026-05-03", days),
            "spring" => Charts.Of(Mist, "2026-03-28"),
            "autumn" => Charts.Of(Mist, "2026-10-24"),
            "eighty" => Charts.Of(LargeSites.EightyZones, "2026-05-06"),
            "twelve" => Charts.Of(LargeSites.TwelveZones, "2026-05-03", days),
            "empty" => Charts.Of(Sites.Garden(""), "2026-05-03"),
            var path => Charts.Of(Example.Read(path).Site!, ChartSpan.FromFirstWater(Example.Read(path).Site!, days)!),
        };
    }
}
