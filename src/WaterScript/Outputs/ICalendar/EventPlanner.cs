using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Outputs;

/// <summary>
/// Sorts what a schedule's events show into series and single events. What happens at the same time of the clock, equally long and with
/// the same words, may be one series; what a clock change touches, and what goes by the sun, stands alone.
/// </summary>
/// <param name="shown">What is shown.</param>
/// <param name="timetable">The same from its natural beginning: where series begin does not depend on what is shown of them, and so neither do their names.</param>
/// <param name="zone">The site's time zone.</param>
/// <param name="options">How events are made.</param>
internal sealed class EventPlanner(Timetable shown, Timetable timetable, CalendarZone zone, CalendarOptions options)
{
    private readonly ZoneClock _clock = new(timetable.Site.TimeZone);
    private readonly int _showFrom = CivilDate.DayNumberOf(shown.Horizon.From);

    /// <summary>The events of a schedule.</summary>
    public ScheduleEvents EventsOf(Schedule schedule)
    {
        var occasions = new Occasions(shown, schedule, options, _clock);
        if (occasions.Unit == EventUnit.Pass) occasions = new Occasions(timetable, schedule, options with { Unit = EventUnit.Pass }, _clock);
        var (groups, singles) = Sort(occasions, GoesBySun(schedule));
        var steady = options.IsOpenEnded && zone.IsEndless ? SteadyDays.Of(timetable.Site, schedule, timetable.Horizon.Until) : null;
        var series = new List<(EventForm Form, Series Series)>();
        foreach (var (form, group) in groups)
        {
            var found = FinderFor(schedule, form).Find([.. group.Select(occasion => _clock.At(occasion.Start).Day)], out var leftOver);
            var alone = leftOver.ToHashSet();
            singles.AddRange(group.Where(occasion => alone.Contains(_clock.At(occasion.Start).Day)));
            series.AddRange(GoOnForEver(found, form, occasions, schedule, steady).Select(one => (form, one)));
        }

        return new ScheduleEvents(
            occasions,
            [.. Marked(series).Select(Shown).OfType<EventSeries>()],
            [.. singles.Where(IsShown).OrderBy(single => single.Start).ThenBy(single => single.Key.Step)],
            IsCut(schedule, [.. groups.Keys.Select(form => form.Key).Concat(singles.Select(single => single.Key)).Distinct()], series));
    }

    private (Dictionary<EventForm, List<Occasion>> Groups, List<Occasion> Singles) Sort(Occasions occasions, bool areAllSingle)
    {
        var groups = new Dictionary<EventForm, List<Occasion>>();
        var singles = new List<Occasion>();
        foreach (var occasion in occasions.All())
        {
            if (areAllSingle || EventForm.Of(occasion, _clock) is not { } form)
            {
                singles.Add(occasion);
                continue;
            }

            if (!groups.TryGetValue(form, out var group)) groups[form] = group = [];
            group.Add(occasion);
        }

        return (groups, singles);
    }

    private SeriesFinder FinderFor(Schedule schedule, EventForm form)
    {
        var sets = schedule.Days.Concat(schedule.Starts.Where(start => form.Key.StartNumber == 0 || start.Number == form.Key.StartNumber).SelectMany(start => start.On));
        return new SeriesFinder(new RuleCandidates(sets, form.Shift), day => form.IsTouchedOn(day, _clock));
    }

    private bool GoesBySun(Schedule schedule) => schedule.Starts.Any(start => start switch
    {
        StartAt at => at.Moment is SunMoment,
        FinishBy by => by.Moment is SunMoment,
        StartAfter after => GoesBySun(timetable.Site.Schedules.First(other => other.Name == after.Other)),
        _ => false,
    });

    /// <summary>The series without an end, if together they then say each date for ever, and no clock change ever touches one; else as they are.</summary>
    private List<Series> GoOnForEver(List<Series> found, EventForm form, Occasions occasions, Schedule schedule, SteadyDays? steady)
    {
        if (steady is null || !form.IsWhole || found.Count == 0) return found;
        var open = found.Where(series => !GivesMore(series, steady.Until)).ToList();
        var sample = found[0].First - form.Shift;
        var months = MonthsLike(sample, occasions, steady.Until);
        for (var day = steady.Until; day < steady.Until + steady.Length; day++)
        {
            var given = 0;
            foreach (var series in open)
            {
                if (series.Rule.Contains(day, series.First)) given++;
            }

            if (given != (IsWanted(day - form.Shift) ? 1 : 0)) return found;
        }

        var window = steady.Window(form, timetable.PlanOn(schedule.Index, sample).Seconds);
        if (zone.Changes.Any(change => Touches(change, window, date => !steady.RepeatsWithCalendar || IsWanted(date)))) return found;
        return [.. found.Select(series => open.Contains(series) ? series with { Last = null } : series)];

        bool IsWanted(int date) => steady.IsDue(form.Key.StartNumber, date) && (months == AllMonths || (months & (1 << CivilDate.FromDayNumber(date).Month)) != 0);
    }

    private const int AllMonths = 0b1_1111_1111_1110;

    /// <summary>Whether a rule that went on would say a day before the end of the horizon that its series does not.</summary>
    private static bool GivesMore(Series series, int until)
    {
        for (var day = series.Last!.Value + 1; day < until; day++)
        {
            if (series.Rule.Contains(day, series.First)) return true;
        }

        return false;
    }

    /// <summary>The months after the horizon in which a pass does what it does on a date, bit 1 for January.</summary>
    private static int MonthsLike(int date, Occasions occasions, int until)
    {
        var (year, month, _) = CivilDate.FromDayNumber(until);
        var months = 0;
        for (var i = 1; i <= 12; i++)
        {
            var next = (month + i - 1) % 12 + 1;
            if (occasions.IsSamePlan(date, CivilDate.DayNumberOf(next > month ? year : year + 1, next, 1))) months |= 1 << next;
        }

        return months;
    }

    private static bool Touches((long Before, long After) change, (long From, long To) window, Func<int, bool> isWanted)
    {
        var (first, last) = (Math.Min(change.Before, change.After), Math.Max(change.Before, change.After));
        var earliest = (int)Math.Ceiling((first - window.To) / (double)ZoneClock.SecondsInDay);
        var latest = (int)Math.Floor((last - window.From) / (double)ZoneClock.SecondsInDay);
        for (var date = earliest; date <= latest; date++)
        {
            if (isWanted(date)) return true;
        }

        return false;
    }

    /// <summary>The first series of the same passes needs no mark, so that it keeps its name whatever becomes of the others.</summary>
    private static IEnumerable<EventSeries> Marked(List<(EventForm Form, Series Series)> series)
    {
        var seen = new HashSet<OccasionKey>();
        foreach (var (form, one) in series.OrderBy(one => one.Series.First).ThenBy(one => one.Form.Key.StartNumber).ThenBy(one => one.Form.Key.Pass).ThenBy(one => one.Form.Key.Step))
        {
            yield return new EventSeries(form, one, seen.Add(form.Key) ? null : one.First - form.Shift);
        }
    }

    /// <summary>The part of a series that is shown, or null.</summary>
    private EventSeries? Shown(EventSeries series)
    {
        var whole = series.Series;
        if (whole.First >= _showFrom) return series;
        for (var day = _showFrom; whole.Last is null || day <= whole.Last; day++)
        {
            if (whole.Rule.Contains(day, whole.First) && whole.Except.BinarySearch(day) < 0)
                return series with { Series = whole with { First = day, Except = [.. whole.Except.Where(except => except > day)] } };
        }

        return null;
    }

    private bool IsShown(Occasion occasion) => _clock.At(occasion.Start).Day >= _showFrom;

    /// <summary>Whether some start of a schedule goes on after the horizon, other than in series without an end.</summary>
    private bool IsCut(Schedule schedule, ImmutableArray<OccasionKey> keys, List<(EventForm Form, Series Series)> series)
    {
        var endless = series.Where(one => one.Series.Last is null).Select(one => one.Form.Key).ToHashSet();
        return schedule.Starts.Any(start => GoesOn(schedule, start, shown) && Unless(keys.Where(key => key.StartNumber == 0 || key.StartNumber == start.Number)));

        bool Unless(IEnumerable<OccasionKey> ofStart) => ofStart.Select(endless.Contains).DefaultIfEmpty(false).Any(isEndless => !isEndless);
    }

    /// <summary>Whether a start of a schedule has a date after the horizon.</summary>
    public static bool GoesOn(Schedule schedule, Start start, Timetable timetable)
    {
        if (schedule.IsExtra || timetable.OnePass is not null) return false;
        var until = CivilDate.DayNumberOf(timetable.Horizon.Until);
        return DayPattern.Of(schedule, timetable.Site.Effective).NarrowedTo(start.On).NextDue(until, until + LongestGap) is not null;
    }

    /// <summary>Days in which a schedule that goes on has a date: 29 February may be away for eight years.</summary>
    private const int LongestGap = 8 * 366;
}
