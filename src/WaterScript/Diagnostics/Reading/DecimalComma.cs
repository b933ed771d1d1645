namespace WaterScript.Diagnostics.Reading;

internal static partial class ReadingRules
{
    /// <summary>A decimal comma.</summary>
    public static Rule DecimalComma { get; } = new("decimal-comma", Severity.Error, "a comma inside a number")
    {
        Category = RuleCategory.Reading,
        Finds = "Numbers have a decimal point, `1.5`, because a comma joins the items of a list. A comma between the digits of one number could be meant " +
            "as a decimal comma or as a thousands mark; the compiler does not guess which.",
        Matters = """
            Read as a thousands mark, `1,500 L/min` is a thousand times what a decimal comma makes of it.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1; flow 7,5 L/min }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1; flow 7.5 L/min }
            schedule evening { every day; start at 20:00; steps { water beds for 10 min } }
            """,
        FixSafety = "Writes a decimal point. Not safe: whether that was meant, only a person knows.",
    };
}
