namespace WaterScript.Diagnostics.Reading;

internal static partial class ReadingRules
{
    /// <summary>Understood, but written in another way here.</summary>
    public static Rule UnusualForm { get; } = new("unusual-form", Severity.Advice, "understood, but written in another way here")
    {
        Category = RuleCategory.Reading,
        Finds = """
            The compiler understood what was meant, and says how the language writes it. `--fix` rewrites it.
            """,
        Matters = """
            One way of writing makes files of different people easy to read and to compare.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; steps { water beds for 10min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
        FixSafety = "Writes the same in the usual form. Safe: the watering stays as it is.",
    };
}
