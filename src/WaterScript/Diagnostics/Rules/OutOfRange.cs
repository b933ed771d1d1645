namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>A value that cannot be.</summary>
    public static Rule OutOfRange { get; } = new("out-of-range", Severity.Error, "a value that cannot be")
    {
        Finds = """
            A value outside what the property can take, or a date or time that does not exist.
            """,
    };
}
