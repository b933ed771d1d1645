namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>Watering that a `cut at` line takes.</summary>
    public static Rule CutShort { get; } = new(
        "cut-short",
        Severity.Advice,
        "watering that a `cut at` line takes",
        """
        Adds up what would run after a schedule's `cut at` moment and therefore does not run, so that nobody looks for a fault in the valves.
        """)
    { CanBeAccepted = true };
}
