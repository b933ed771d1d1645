using WaterScript.Quantities;

namespace WaterScript.Wording;

/// <summary>How flows and volumes are compared and said.</summary>
internal static class Flows
{
    /// <summary>
    /// What two equal sums of flows may differ by, in L/min or L: six emitters of 4 L/h are not exactly 0.4 L/min in decimal numbers. It is far above what 28
    /// digits leave out, and far below any amount that somebody writes.
    /// </summary>
    public const decimal Tolerance = 0.000000000001m;

    /// <summary>A flow in L/min, in the unit in which the supply's own is written.</summary>
    public static string Say(decimal litresPerMinute, Quantity like) => Phrases.Amount(litresPerMinute, like.Unit, 1);
}
