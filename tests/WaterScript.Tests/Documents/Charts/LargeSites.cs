namespace WaterScript.Tests.Documents.Charts;

/// <summary>Sites that are more than a screen can easily show.</summary>
internal static class LargeSites
{
    private static readonly string[] Blocks =
        ["North lawn", "Orchard row", "Hedge by the lane", "Rose bed", "Nursery bench", "Car park trees", "Slope above the pond", "Playing field"];

    /// <summary>
    /// Eighty zones of two controllers in two rounds through a night, with cycles, in US units; the drips run together, and some of it after hours.
    /// </summary>
    public static string EightyZones => $$"""
        site college "College grounds" { timezone America/Denver; location 40.3 N 104.6 W 4800 ft; effective 2026-04-01 }
        supply main "City main" { flow 60 gpm }
        supply pond { tank 20000 gal; reserve 2000 gal; refill 12 gpm; flow 45 gpm }
        controller east { outputs 48; power { transformer 40 VA at 24 V } }
        controller west { outputs 48; power { transformer 40 VA at 24 V } }
        valve v non-latching { inrush 400 mA; holding 230 mA }
        {{Lines(1, 80, ZoneOfCollege)}}
        restriction city "City, no water by day" { allow between 18:00 and 09:00 }
        schedule east "East, all of it" { every day; start at 20:30; steps { {{Lines(1, 40, CycleOfCollege)}} } }
        schedule west "West, all of it" { on mon, wed, fri; start at 21:05; steps { {{Lines(41, 78, WateringOfCollege)}} } }
        schedule mist { every day; start at 13:00; repeat every 10 min until 17:00; steps { water z79 + z80 for 20 s } }
        schedule noon { on thu; start at 12:20; steps { water z60 for 15 min } }
        """;

    /// <summary>Twelve zones on a weak supply over a week: short passes all day, cycles at night, waterings close to one another.</summary>
    public static string TwelveZones => $$"""
        site yard "Plant yard" { timezone Europe/Lisbon; location 39.6 N 8.1 W; effective 2026-04-01 }
        supply tap { flow 30 L/min }
        controller box { outputs 12; power { continuous 500 mA at 9 V } }
        valve v non-latching { holding 200 mA }
        {{Lines(1, 12, ZoneOfYard)}}
        restriction town "Town" { for z1, z2, z3; allow between 18:00 and 10:00 }
        schedule mist { every day; start at 08:00; repeat every 8 min until 19:00; steps { water z12 for 12 s } }
        schedule night { on mon, wed, fri, sun; start at 21:40; steps { {{Lines(1, 8, CycleOfYard)}} } }
        schedule morning { every day; start at 06:10, 06:55, 09:45; steps { water z9 for 9 min; pause 2 min; water z10 + z11 for 14 min } }
        schedule long { on tue; start at 10:00; steps { water z11 for 4 h } }
        """;

    private static string ZoneOfCollege(int number) =>
        $"zone z{number} \"{Blocks[number % 8]} {number}\" {{ output {((number - 1) % 40) + 1} of {(number <= 40 ? "east" : "west")}; "
            + $"valve v; flow {12 + (number * 7 % 23)} gpm; supply {(number % 8 == 4 ? "pond" : "main")} }}";

    private static string CycleOfCollege(int number) => $"cycle 6 min soak 12 min {{ water z{number} for {(number % 3 == 0 ? 12 : 7)} min }}";

    private static string WateringOfCollege(int number) => $"water z{number} for {4 + (number % 5)} min";

    private static string ZoneOfYard(int number) =>
        $"zone z{number} \"{Blocks[number % 8]} {number}\" {{ output {number}; valve v; flow {4 + (number * 5 % 13)} L/min }}";

    private static string CycleOfYard(int number) => $"cycle 5 min soak 9 min {{ water z{number} for {(number % 2 == 0 ? 15 : 10)} min }}";

    private static string Lines(int first, int last, Func<int, string> line) =>
        string.Join('\n', Enumerable.Range(first, last - first + 1).Select(line));
}
