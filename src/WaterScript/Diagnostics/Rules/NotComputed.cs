namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>Not yet computed.</summary>
    public static Rule NotComputed { get; } = new("not-computed", Severity.Error, "not yet computed")
    {
        Finds = """
            The compiler reads and checks this, but does not compute it yet. It says so rather than write a timetable that leaves it out.
            """,
        Matters = """
            A timetable with a gap that nobody mentions looks like a complete one.
            """,
    };
}
