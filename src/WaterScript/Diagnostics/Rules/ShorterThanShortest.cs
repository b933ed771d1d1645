namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>Watering too short to be worth it.</summary>
    public static Rule ShorterThanShortest { get; } = new(
        "shorter-than-shortest",
        Severity.Advice,
        "watering too short to be worth it",
        """
        A watering that scale or trim brings to nothing, or under the zone's `shortest`, is left out; one that is written shorter than that is kept and told.
        """)
    { CanBeAccepted = true };
}
