namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>An included file outside the root folder.</summary>
    public static Rule IncludeOutside { get; } = new("include-outside", Severity.Error, "an included file outside the root folder")
    {
        Finds = """
            Includes stay inside the root folder, so that a site can be copied, reviewed and built anywhere.
            """,
    };
}
