namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>A start in the hour that a clock change skips.</summary>
    public static Rule SkippedTime { get; } = new(
        "skipped-time",
        Severity.Warning,
        "a start in the hour that a clock change skips",
        """
        The wall clock never shows this time on that day. The start is reckoned with the offset before the change (RFC 5545, 3.3.5), so it comes later on the clock.
        """)
    { CanBeAccepted = true };
}
