using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;

namespace WaterScript.Timetables.Keeping;

/// <summary>
/// What <c>keep to</c> takes: a hold of the zones that a restriction binds wherever it allows no water. What lies before stays, a run that starts inside is
/// left out whole, and nothing moves.
/// </summary>
internal sealed class KeptHours
{
    private readonly ImmutableArray<KeptRestriction> _kept;
    private readonly ImmutableArray<ImmutableArray<int>> _keptBy;
    private readonly ZoneClock _clock;
    private readonly PlannedDates _dates;
    private readonly DayAmounts? _amounts;
    private readonly WorkBudget? _budget;

    private KeptHours(Site site, MomentReader moments, Func<Horizon, IEnumerable<Run>> planned, Func<Horizon, IEnumerable<Run>>? byHours, WorkBudget? budget)
    {
        (_clock, _budget) = (moments.Clock, budget);
        Restriction[] restrictions = [.. site.Restrictions.Where(restriction =>
            site.Schedules.Any(schedule => schedule.Keeps.Any(keep => keep.Restriction.Origin == restriction.Origin)))];
        _kept = [.. restrictions.Select(restriction => new KeptRestriction(restriction, site, moments))];
        _keptBy = [.. site.Schedules.Select(schedule => schedule.Keeps
            .Select(keep => Array.FindIndex(restrictions, restriction => restriction.Origin == keep.Restriction.Origin)).ToImmutableArray())];
        _dates = new PlannedDates(_kept, _keptBy, Aside(planned), CivilDate.DayNumberOf(site.Effective), _clock, budget);
        _amounts = byHours is null || _kept.All(each => each.DayLines.IsEmpty) ? null
            : new DayAmounts(site, _kept, _keptBy, Aside(byHours), _clock, budget);
    }

    /// <summary>What schedules of a site keep to; null where none does.</summary>
    /// <param name="site">The site.</param>
    /// <param name="moments">Its own.</param>
    /// <param name="planned">What would run were nothing held and nothing kept to, in a horizon.</param>
    /// <param name="byHours">What runs by dates and hours, before the amounts of a day; null where those do not matter.</param>
    /// <param name="budget">Counts the work; may be null.</param>
    public static KeptHours? Of(
        Site site, MomentReader moments, Func<Horizon, IEnumerable<Run>> planned, Func<Horizon, IEnumerable<Run>>? byHours, WorkBudget? budget) =>
        site.Schedules.All(schedule => schedule.Keeps.IsEmpty) ? null : new KeptHours(site, moments, planned, byHours, budget);

    /// <summary>Whether a schedule keeps to anything.</summary>
    public bool Binds(int schedule) => !_keptBy[schedule].IsEmpty;

    /// <summary>The restriction that takes all or the end of a run by its dates and hours, as an index of the schedule's lines; -1 for none.</summary>
    /// <param name="schedule">The schedule.</param>
    /// <param name="zone">The zone.</param>
    /// <param name="start">Its start, in Unix seconds.</param>
    /// <param name="end">Its end.</param>
    /// <param name="left">The end of what is left; no later than <paramref name="start"/> when nothing is.</param>
    public int TakeByHours(int schedule, int zone, long start, long end, out long left) => Take(schedule, start, end, out left,
        (restriction, day, from, until) => FirstHeld(restriction, zone, day, from, until));

    /// <summary>The same by the amounts of a day.</summary>
    public int TakeByAmounts(int schedule, int zone, long start, long end, out long left)
    {
        left = end;
        if (_amounts is not { } amounts) return -1;
        return Take(schedule, start, end, out left, (restriction, day, from, until) =>
            amounts.UsedUp(restriction, zone, day) is { } moment && moment < until ? Math.Max(from, moment) : null);
    }

    private int Take(int schedule, long start, long end, out long left, Func<int, int, long, long, long?> firstOn)
    {
        left = end;
        var taker = -1;
        for (var line = 0; line < _keptBy[schedule].Length; line++)
        {
            var from = start;
            for (var day = _clock.At(start).Day; from < left; day++)
            {
                _budget?.Spend(1, schedule);
                var until = Math.Min(left, _clock.StartOfDay(day + 1));
                if (until > from && firstOn(_keptBy[schedule][line], day, from, until) is { } first)
                {
                    left = first;
                    taker = line;
                }

                from = until;
            }
        }

        return taker;
    }

    private long? FirstHeld(int restriction, int zone, int day, long from, long until)
    {
        var kept = _kept[restriction];
        if (!kept.Binds(zone, day)) return null;
        for (var line = 0; line < kept.WeekLines.Length; line++)
        {
            if (!_dates.Counts(restriction, line, zone, day)) return from;
        }

        return kept.FirstForbidden(day, from, until);
    }

    /// <summary>What is worked out in advance is work, but says nothing of how far an answer has come.</summary>
    private Func<Horizon, IEnumerable<Run>> Aside(Func<Horizon, IEnumerable<Run>> runs) => horizon => InAdvance(runs(horizon));

    private IEnumerable<Run> InAdvance(IEnumerable<Run> runs)
    {
        using var aside = _budget?.Aside();
        foreach (var run in runs) yield return run;
    }
}
