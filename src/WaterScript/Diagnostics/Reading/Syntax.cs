namespace WaterScript.Diagnostics.Reading;

internal static partial class ReadingRules
{
    /// <summary>Cannot read this.</summary>
    public static Rule Syntax { get; } = new("syntax", Severity.Error, "cannot read this")
    {
        Category = RuleCategory.Reading,
        Finds = """
            What the compiler cannot read. Each mistake is reported at its own place with what was expected there; the rest of the file is still read.
            """,
        Matters = """
            A line that is read otherwise than it was meant waters at another time, or never. The compiler does not guess.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; steps { water beds 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
        FixSafety = "Where only one word can have been meant, such as `mon to fri` for `mon-fri`, it is written. Safe. A missing brace is put in only when " +
            "a person says so.",
        KnownLimits = "A mistake ends its statement, so a second mistake in the same statement is reported when the first is corrected.",
    };
}
