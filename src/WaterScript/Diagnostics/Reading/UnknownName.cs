namespace WaterScript.Diagnostics.Reading;

internal static partial class ReadingRules
{
    /// <summary>A name that nothing has.</summary>
    public static Rule UnknownName { get; } = new("unknown-name", Severity.Error, "a name that nothing has")
    {
        Category = RuleCategory.Reading,
        Finds = """
            A zone, supply, valve, schedule, word or unit that the file does not know. The nearest known name is offered.
            """,
        Matters = """
            A zone that is misspelt in a schedule would stay dry.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; steps { water bets for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
        FixSafety = "Writes the nearest known name. Safe: the misspelt one means nothing, so the file did not run before; when the nearest would give " +
            "another error, it is not applied.",
    };
}
