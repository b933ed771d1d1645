using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Timetables.Keeping;

/// <summary>A restriction that some schedule keeps to: whom it binds, and what its days and hours forbid.</summary>
internal sealed class KeptRestriction
{
    private readonly RestrictionReach _reach;
    private readonly DayPattern? _days;
    private readonly AllowedHours? _hours;
    private readonly WeeksFrom _weeks;

    public KeptRestriction(Restriction restriction, Site site, MomentReader moments)
    {
        Restriction = restriction;
        _reach = new RestrictionReach(restriction, site);
        var isForAllDays = restriction.AllowedDays.IsEmpty && restriction.Except.IsEmpty;
        _days = isForAllDays ? null : DayPattern.Of(restriction.AllowedDays, season: null, restriction.Except, site.Effective);
        _hours = restriction.AllowedHours.IsEmpty ? null : new AllowedHours(restriction.AllowedHours, moments);
        _weeks = new WeeksFrom(restriction.WeekStarts);
        WeekLines = [.. restriction.AtMost.Where(line => line.Kind == LimitKind.DaysAWeek)];
        DayLines = [.. restriction.AtMost.Where(IsOfDay)];
    }

    /// <summary>The restriction.</summary>
    public Restriction Restriction { get; }

    /// <summary>Its lines that limit the days of a week.</summary>
    public ImmutableArray<AtMost> WeekLines { get; }

    /// <summary>Its lines that limit time, depth or volume of a day.</summary>
    public ImmutableArray<AtMost> DayLines { get; }

    /// <summary>Whether it has a line that a schedule can keep to.</summary>
    public static bool CanBeKept(Restriction restriction) => !restriction.AllowedDays.IsEmpty || !restriction.Except.IsEmpty
        || !restriction.AllowedHours.IsEmpty || restriction.AtMost.Any(line => line.Kind == LimitKind.DaysAWeek || IsOfDay(line));

    /// <summary>Whether a zone is bound on a local date, in days since 1970-01-01.</summary>
    public bool Binds(int zone, int day) => _reach.Binds(zone, day);

    /// <summary>The first day of the week that a date lies in.</summary>
    public int WeekOf(int day) => _weeks.WeekOf(day);

    /// <summary>The first instant of a part of a date that its days or hours forbid, in Unix seconds; null where they allow all of it.</summary>
    /// <param name="day">The date, in days since 1970-01-01, on which it binds.</param>
    /// <param name="from">First instant of the part.</param>
    /// <param name="until">The instant after its last.</param>
    public long? FirstForbidden(int day, long from, long until) => _days?.IsDue(day) == false ? from : _hours?.FirstOutside(day, from, until);

    private static bool IsOfDay(AtMost line) =>
        line.Kind is LimitKind.TimeADay or LimitKind.DepthADay || line is { Kind: LimitKind.Volume, Period: LimitPeriod.Day };
}
