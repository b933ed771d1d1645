namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>A start that is later than the end of its repeats.</summary>
    public static Rule NoPass { get; } = new(
        "no-pass",
        Severity.Advice,
        "a start that is later than the end of its repeats",
        """
        On such a day the sun sets, or rises, before the start: there is no pass that day.
        """)
    { CanBeAccepted = true };
}
