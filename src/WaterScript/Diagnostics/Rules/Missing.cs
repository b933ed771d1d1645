namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>Something required is not there.</summary>
    public static Rule Missing { get; } = new("missing", Severity.Error, "something required is not there")
    {
        Finds = """
            A property or a statement without which the block cannot be understood.
            """,
    };
}
