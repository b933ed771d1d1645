namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>Understood, but written in another way here.</summary>
    public static Rule UnusualForm { get; } = new("unusual-form", Severity.Advice, "understood, but written in another way here")
    {
        Finds = """
            The compiler understood what was meant, and says how the language writes it. `--fix` rewrites it.
            """,
    };
}
