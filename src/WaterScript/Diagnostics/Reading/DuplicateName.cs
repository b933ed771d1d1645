namespace WaterScript.Diagnostics.Reading;

internal static partial class ReadingRules
{
    /// <summary>Two things of one name.</summary>
    public static Rule DuplicateName { get; } = new("duplicate-name", Severity.Error, "two things of one name")
    {
        Category = RuleCategory.Reading,
        Finds = """
            Names are unique for each kind; zones, groups, pumps, masters and injectors are one kind, because they stand in the same places.
            """,
        Matters = """
            With two zones of one name, a schedule would water one of them, and which one would be chance.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            zone beds { output 2 }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            zone hedge { output 2 }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
        KnownLimits = "Names of different kinds may be equal: a schedule may be called like a zone.",
    };
}
