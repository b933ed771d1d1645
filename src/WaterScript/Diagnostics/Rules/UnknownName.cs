namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>A name that nothing has.</summary>
    public static Rule UnknownName { get; } = new("unknown-name", Severity.Error, "a name that nothing has")
    {
        Finds = """
            A zone, supply, valve, schedule, word or unit that the file does not know. The nearest known name is offered.
            """,
    };
}
