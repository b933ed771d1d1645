namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>Goes round in a circle.</summary>
    public static Rule Loop { get; } = new("loop", Severity.Error, "goes round in a circle")
    {
        Finds = """
            Sequences, groups, lets, includes, supplies or schedules that lead back to themselves.
            """,
    };
}
