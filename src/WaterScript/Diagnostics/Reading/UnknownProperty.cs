namespace WaterScript.Diagnostics.Reading;

internal static partial class ReadingRules
{
    /// <summary>A property that this block has not got.</summary>
    public static Rule UnknownProperty { get; } = new("unknown-property", Severity.Error, "a property that this block has not got")
    {
        Category = RuleCategory.Reading,
        Finds = """
            The block does not know this property. The nearest known one is offered, and the block's own list.
            """,
        Matters = """
            A property that is passed over in silence is a limit that nobody watches.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1; flaw 8 L/min }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1; flow 8 L/min }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
        FixSafety = "Writes the nearest known name. Safe: the misspelt one means nothing, so the file did not run before; when the nearest would give " +
            "another error, it is not applied.",
    };
}
