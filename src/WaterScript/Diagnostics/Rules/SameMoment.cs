namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>Two starts at one moment.</summary>
    public static Rule SameMoment { get; } = new(
        "same-moment",
        Severity.Advice,
        "two starts at one moment",
        """
        Two starts of a schedule that fall on the same moment of a date are one: the zones are watered once.
        """)
    { CanBeAccepted = true };
}
