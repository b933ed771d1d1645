namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>An included file that is not there.</summary>
    public static Rule IncludeMissing { get; } = new("include-missing", Severity.Error, "an included file that is not there")
    {
        Finds = """
            The path of an `include` is read from the folder of the file that it stands in.
            """,
    };
}
