namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>Over a limit of the compiler.</summary>
    public static Rule OverLimit { get; } = new("over-limit", Severity.Error, "over a limit of the compiler")
    {
        Finds = """
            The compiler refuses what could not be carried out or would not end; the limit is named.
            """,
    };
}
