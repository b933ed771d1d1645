namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>Two statements that exclude each other.</summary>
    public static Rule Contradiction { get; } = new("contradiction", Severity.Error, "two statements that exclude each other")
    {
        Finds = """
            Both cannot hold. Delete one of them.
            """,
    };
}
