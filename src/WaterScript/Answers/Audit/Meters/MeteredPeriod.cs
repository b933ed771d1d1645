using System.Collections.Immutable;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Answers.Audit.Meters;

/// <summary>What went through a meter from one reading to the next, beside what was planned; all of it in litres.</summary>
/// <param name="From">The first reading.</param>
/// <param name="Until">The last.</param>
/// <param name="Watering">What zones and tanks take as planned.</param>
/// <param name="Other">Other use, as the file assumes it.</param>
/// <param name="Metered">What the meter went on by.</param>
internal sealed record MeteredPeriod(MeterReading From, MeterReading Until, Fraction Watering, Fraction Other, Fraction Metered)
{
    /// <summary>A period is unusual from so many hundredths of what was planned.</summary>
    public const int UnusualPercent = 10;

    /// <summary>And from so many litres.</summary>
    public const int UnusualLitres = 1000;

    private const int Percent = 100;

    /// <summary>Watering and other use.</summary>
    public Fraction Planned => Watering + Other;

    /// <summary>How much more the meter went on by than was planned; less than nothing where it was less.</summary>
    public Fraction Difference => Metered - Planned;

    /// <summary>What logs say of it; null without any.</summary>
    public LoggedPeriod? Log { get; init; }

    /// <summary>Whether it was so much more or less that somebody should look.</summary>
    public bool IsUnusual => Magnitude(Difference) >= Fraction.Of(UnusualLitres) && !IsNear(Planned);

    /// <summary>What by the log should have gone through the meter; null without a log.</summary>
    public Fraction? Explained => Log is { } log ? Planned + log.Change : null;

    /// <summary>What the log does not explain of the difference; null without a log.</summary>
    public Fraction? Unexplained => Log is { } log ? Difference - log.Change : null;

    /// <summary>Whether it is as usual, or the log says why it is not.</summary>
    public bool IsClear => !IsUnusual || (Explained is { } explained && IsNear(explained));

    /// <summary>The difference in hundredths of what was planned; null where nothing was.</summary>
    public Fraction? DifferencePercent => Planned.Sign > 0 ? Difference * Fraction.Of(Percent) / Planned : null;

    /// <summary>A volume without its sign.</summary>
    public static Fraction Magnitude(Fraction volume) => volume.Sign < 0 ? -volume : volume;

    /// <summary>Whether what was metered is within the share of a volume.</summary>
    private bool IsNear(Fraction volume) => Magnitude(Metered - volume) * Fraction.Of(Percent) < volume * Fraction.Of(UnusualPercent)
        || (volume.Sign == 0 && Metered.Sign == 0);
}

/// <summary>What logs say of a period.</summary>
/// <param name="Change">How much more zones took by their run times than was planned, in litres; what is not known counts as planned.</param>
/// <param name="ByHand">What of it somebody watered by hand.</param>
/// <param name="Passes">Passes of schedules that were planned, as far as the log goes.</param>
/// <param name="Done">Those of which all was done as planned.</param>
/// <param name="NotKnown">Those of which something is not known.</param>
internal sealed record LoggedPeriod(Fraction Change, Fraction ByHand, int Passes, int Done, int NotKnown)
{
    /// <summary>The longest watering by hand; null where there was none.</summary>
    public AuditEntry? Longest { get; init; }
}

/// <summary>The periods of one meter.</summary>
/// <param name="Supply">The supply.</param>
/// <param name="Unit">The unit of its readings.</param>
/// <param name="Periods">In order of time.</param>
internal sealed record MeterOutcome(Supply Supply, Unit Unit, ImmutableArray<MeteredPeriod> Periods)
{
    /// <summary>Zones without a flow behind it, whose water is not in what was planned.</summary>
    public ImmutableArray<Zone> Unmeasured { get; init; } = [];

    /// <summary>Tanks behind it that cannot be followed, likewise.</summary>
    public ImmutableArray<Supply> Tanks { get; init; } = [];
}
