using WaterScript.Answers.Audit.Water;

namespace WaterScript.Answers.Audit;

/// <summary>An opening of a zone that was meant, in Unix seconds.</summary>
/// <param name="Schedule">Index among the site's schedules; below 0 where it is not known.</param>
/// <param name="Day">The date that it belongs to, in days since 1970-01-01.</param>
/// <param name="PassStart">When its pass starts.</param>
/// <param name="From">First second.</param>
/// <param name="To">The second after the last.</param>
internal sealed record Meant(int Schedule, int Day, long PassStart, long From, long To);

/// <summary>How what a log has of a valve ends.</summary>
internal enum ActualEnd
{
    /// <summary>It was closed.</summary>
    Closed,

    /// <summary>The device started anew; until its last row before that it was open, and what came then is not known.</summary>
    Boot,

    /// <summary>No closing is logged.</summary>
    NotSeen,
}

/// <summary>A valve was open, as a log has it, in Unix seconds.</summary>
internal sealed record Actual(decimal From, decimal To, ActualEnd End, string? Why, LogPlace Place, MeteredVolume Volume)
{
    /// <summary>Until when it may have been open, in Unix seconds.</summary>
    public decimal MayBeTo { get; init; } = To;

    /// <summary>Its length in whole seconds.</summary>
    public long Seconds => (long)Math.Round(To - From, MidpointRounding.AwayFromZero);
}
