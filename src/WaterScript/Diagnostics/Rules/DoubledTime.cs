namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>A start in the hour that a clock change repeats.</summary>
    public static Rule DoubledTime { get; } = new(
        "doubled-time",
        Severity.Advice,
        "a start in the hour that a clock change repeats",
        """
        The wall clock shows this time twice on that day. The first of the two is taken (RFC 5545, 3.3.5).
        """)
    { CanBeAccepted = true };
}
