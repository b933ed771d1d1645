namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>Stated twice.</summary>
    public static Rule StatedTwice { get; } = new("stated-twice", Severity.Error, "stated twice")
    {
        Finds = """
            A property or statement that may stand once stands twice; which of the two holds would be a guess.
            """,
    };
}
