namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>Watering that a hold or a closed season takes.</summary>
    public static Rule CutByHold { get; } = new(
        "cut-by-hold",
        Severity.Advice,
        "watering that a hold or a closed season takes",
        """
        Adds up what is due and does not run because ground is held dry or the site is closed, so that nobody looks for a fault in the valves.
        """)
    { CanBeAccepted = true };
}
