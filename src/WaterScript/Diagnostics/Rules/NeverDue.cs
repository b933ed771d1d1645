namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>A schedule that waters on no day.</summary>
    public static Rule NeverDue { get; } = new(
        "never-due",
        Severity.Warning,
        "a schedule that waters on no day",
        """
        No day of the horizon meets all of the schedule's lines.
        """)
    { CanBeAccepted = true };
}
