using System.Collections.Immutable;

namespace WaterScript.Answers.Audit.Clocks;

/// <summary>How far the clock of a log is from that of the site.</summary>
/// <param name="Weeks">What was measured, in order; at a change of the site's clock a week is parted.</param>
/// <param name="Season">Seconds that the log is ahead because its clock does not change with the season; 0 where it does.</param>
/// <param name="IsSummerOff">Whether it is off by that in summer; else in winter.</param>
/// <param name="SummerOffset">The offset of the site's clock in summer, in seconds ahead of UTC.</param>
/// <param name="Base">Seconds that it is ahead at the first row, beside the season.</param>
/// <param name="PerWeek">Seconds that it gains in a week.</param>
/// <param name="IsStepped">Whether it was set meanwhile, so that each week has a value of its own.</param>
internal sealed record LogClock(
    ImmutableArray<MeasuredWeek> Weeks, long Season, bool IsSummerOff, int SummerOffset, decimal Base, decimal PerWeek, bool IsStepped)
{
    /// <summary>Seconds in a week.</summary>
    public const int Week = 7 * 86_400;

    /// <summary>Seconds that the clock of the log is ahead at a moment that it shows.</summary>
    /// <param name="at">In Unix seconds.</param>
    /// <param name="offset">That of the site's clock then.</param>
    public decimal AheadAt(decimal at, int offset)
    {
        if (IsStepped) return Weeks.LastOrDefault(week => week.From <= at, Weeks[0]).Ahead;
        var season = offset == SummerOffset == IsSummerOff ? Season : 0;
        return Math.Round(Base + (PerWeek * (at - Weeks[0].From) / Week) + season);
    }
}
