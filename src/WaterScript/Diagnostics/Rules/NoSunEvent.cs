namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>A day without this sun event.</summary>
    public static Rule NoSunEvent { get; } = new(
        "no-sun-event",
        Severity.Warning,
        "a day without this sun event",
        """
        Near the poles there are days on which the sun does not rise or set. Such a day gets no start.
        """)
    { CanBeAccepted = true };
}
