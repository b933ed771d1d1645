namespace WaterScript.Diagnostics.Reading;

internal static partial class ReadingRules
{
    /// <summary>A character that hides what the line says.</summary>
    public static Rule HiddenText { get; } = new("hidden-text", Severity.Error, "a character that hides what the line says")
    {
        Category = RuleCategory.Reading,
        Finds = "Bidirectional controls and invisible characters could make a line read otherwise than it runs. Delete them; in labels, directional marks " +
            "are allowed.",
        Matters = """
            They come along when text is copied from a web page or a chat, and nobody sees them.
            """,
        FixSafety = "Takes the characters out. Safe: they mean nothing to the compiler.",
        Sources = "Unicode Technical Standard 55, source code handling.",
    };
}
