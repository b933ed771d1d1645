namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>Cannot read this.</summary>
    public static Rule Syntax { get; } = new("syntax", Severity.Error, "cannot read this")
    {
        Finds = """
            What the compiler cannot read. Each mistake is reported at its own place with what was expected there; the rest of the file is still read.
            """,
    };
}
