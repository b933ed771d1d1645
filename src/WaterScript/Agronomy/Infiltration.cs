using WaterScript.Model;

namespace WaterScript.Agronomy;

/// <summary>What the ground takes in, and how long it can be watered before water runs off.</summary>
/// <param name="Rate">Application rate in mm/h.</param>
/// <param name="Intake">What the soil takes in, in mm/h, the same all the time.</param>
/// <param name="Ponds">Water that may stand on it before it runs off, in mm.</param>
internal readonly record struct Infiltration(decimal Rate, decimal Intake, decimal Ponds)
{
    /// <summary>
    /// That of a zone; null where its application rate, its soil's intake or what may stand on it is not known. A zone of drip never runs
    /// off: it wets small spots, whatever its rate over all of its ground.
    /// </summary>
    public static Infiltration? Of(Zone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        if (zone.Method == IrrigationMethod.Drip) return new Infiltration(0, 0, 0);
        return zone is { MillimetresPerHour: { } rate, Soil: { Intake: { } intake } soil } && soil.PondsOn(zone.SlopePercent ?? 0m) is { } ponds
            ? new Infiltration(rate, intake.InBase, ponds.InBase)
            : null;
    }

    /// <summary>Whether water stands at all while it is watered.</summary>
    public bool IsFasterThanIntake => Rate > Intake;

    /// <summary>
    /// The longest run before runoff in seconds: minutes = 60 · ponds / (rate − intake) (Irrigation Association, Landscape Irrigation Scheduling and
    /// Water Management, 2005; from memory). Null where there is none.
    /// </summary>
    public decimal? LongestRun => IsFasterThanIntake ? 3600 * Ponds / (Rate - Intake) : null;

    /// <summary>The same in whole seconds, which is what a valve can do.</summary>
    public long LongestWholeRun => LongestRun is { } longest ? (long)Math.Min(longest, RunTime.Longest) : (long)RunTime.Longest;

    /// <summary>The least soak after a run in seconds: run · (rate − intake) / intake, until what stands has gone in (the same source).</summary>
    /// <param name="seconds">How long the run lasts, no longer than <see cref="LongestRun"/>.</param>
    public decimal LeastSoak(long seconds) => IsFasterThanIntake ? seconds * (Rate - Intake) / Intake : 0;

    /// <summary>Whole seconds of the least soak, rounded up.</summary>
    /// <param name="seconds">How long the run lasts.</param>
    public long LeastWholeSoak(long seconds) => (long)Math.Min(Math.Ceiling(LeastSoak(seconds)), RunTime.Longest);
}
