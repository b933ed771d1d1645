namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>A quantity of another kind.</summary>
    public static Rule WrongUnit { get; } = new("wrong-unit", Severity.Error, "a quantity of another kind")
    {
        Finds = """
            A quantity whose unit measures something else than what is wanted here.
            """,
    };
}
