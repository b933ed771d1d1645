using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Documents.ICalendar;

/// <summary>
/// Sorts what a schedule's events show into series and single events. What happens at the same time of the clock, equally long and with
/// the same words, may be one series; what a clock change touches, and what goes by the sun, stands alone.
/// </summary>
/// <param name="shown">What is shown.</param>
/// <param name="timetable">The same from its natural beginning: where series begin does not depend on what is shown of them, and so neither do their
/// names.</param>
/// <param name="zone">The site's time zone.</param>
/// <param name="options">How events are made.</param>
internal sealed class EventPlanner(Timetable shown, Timetable timetable, CalendarZone zone, CalendarOptions options)
{
    private readonly ZoneClock _clock = new(timetable.Site.TimeZone);
    private readonly Dictionary<int, Dictionary<int, bool>> _skipped = [];
    private readonly int _showFrom = CivilDate.DayNumberOf(shown.Horizon.From);

    /// <summary>The events of a schedule.</summary>
    public ScheduleEvents EventsOf(Schedule schedule)
    {
        var occasions = new Occasions(shown, schedule, options, _clock);
        if (occasions.Unit == EventUnit.Pass) occasions = new Occasions(timetable, schedule, options with { Unit = EventUnit.Pass }, _clock);
        var (groups, singles) = Sort(occasions, StartsBySun(schedule));
        var endless = EndlessOf(schedule, occasions);
        var endlessKeys = new HashSet<OccasionKey>();
        var series = new List<(EventForm Form, Series Series)>();
        foreach (var ofKey in groups.GroupBy(group => group.Key.Key))
        {
            FormDays[] forms = [.. ofKey.Select(group => new FormDays(group.Key, [.. group.Value.Select(occasion => _clock.At(occasion.Start).Day)]))];
            var goingOn = endless?.Of(forms, (days, way) => Say(schedule, days, way));
            if (goingOn is not null) endlessKeys.Add(ofKey.Key);
            foreach (var said in goingOn ?? forms.Select(days => Say(schedule, days, new RuleWay(options.IsSimple))))
            {
                series.AddRange(said.Series.Select(one => (said.Form, one)));
                singles.AddRange(groups[said.Form].Where(occasion => said.LeftOver.Contains(_clock.At(occasion.Start).Day)));
            }
        }

        var marked = Marked(series).ToList();
        singles.AddRange(marked.SelectMany(one => AheadOf(one, groups[one.Form])));
        return new ScheduleEvents(
            occasions,
            [.. marked.Select(Shown).OfType<EventSeries>()],
            [.. singles.Where(IsShown).OrderBy(single => single.Start).ThenBy(single => single.Key.Step)],
            IsCut(schedule, [.. groups.Keys.Select(form => form.Key).Concat(singles.Select(single => single.Key)).Distinct()], endlessKeys));
    }

    private EndlessSeries? EndlessOf(Schedule schedule, Occasions occasions) =>
        options.IsOpenEnded && !options.IsSimple && zone.IsEndless && SteadyDays.Of(timetable.Site, schedule, timetable.Horizon.Until) is { } steady
            ? new EndlessSeries(steady, occasions, zone, date => timetable.PlanOn(schedule.Index, date).Seconds)
            : null;

    /// <param name="occasions">All that is shown.</param>
    /// <param name="bySun">Numbers of the starts that go by the sun; what they show stands alone.</param>
    private (Dictionary<EventForm, List<Occasion>> Groups, List<Occasion> Singles) Sort(Occasions occasions, HashSet<int> bySun)
    {
        var groups = new Dictionary<EventForm, List<Occasion>>();
        var singles = new List<Occasion>();
        foreach (var occasion in occasions.All())
        {
            if (bySun.Contains(occasion.Key.StartNumber) || EventForm.Of(occasion, _clock) is not { } form)
            {
                singles.Add(occasion);
                continue;
            }

            if (!groups.TryGetValue(form, out var group)) groups[form] = group = [];
            group.Add(occasion);
        }

        return (groups, singles);
    }

    private SaidDays Say(Schedule schedule, FormDays days, RuleWay way)
    {
        var form = days.Form;
        var sets = schedule.Days.Concat(schedule.Starts.Where(start => form.Key.StartNumber == 0 || start.Number == form.Key.StartNumber)
            .SelectMany(start => start.On));
        if (!_skipped.TryGetValue(form.SecondOfDay, out var skipped)) _skipped[form.SecondOfDay] = skipped = [];
        var finder = new SeriesFinder(new RuleCandidates(sets, form.Shift), day => form.IsTouchedOn(day, _clock), IsSkipped, way);
        var series = finder.Find(days.Days, out var leftOver);
        return new SaidDays(form, [.. series], [.. leftOver]);

        bool IsSkipped(int day)
        {
            if (!skipped.TryGetValue(day, out var isSkipped)) skipped[day] = isSkipped = form.IsSkippedOn(day, _clock);
            return isSkipped;
        }
    }

    /// <summary>The numbers of the starts that go by the sun; 0, which stands for all of a date, where there is one.</summary>
    private HashSet<int> StartsBySun(Schedule schedule)
    {
        HashSet<int> numbers = [.. schedule.Starts.Where(GoesBySun).Select(start => start.Number)];
        if (numbers.Count > 0) numbers.Add(0);
        return numbers;
    }

    private bool GoesBySun(Start start) => start switch
    {
        StartAt at => at.Moment is SunMoment,
        FinishBy by => by.Moment is SunMoment,
        StartAfter after => timetable.Site.Schedules.First(other => other.Name == after.Other).Starts.Any(GoesBySun),
        _ => false,
    };

    /// <summary>The first series of the same passes needs no mark, so that it keeps its name whatever becomes of the others.</summary>
    private static IEnumerable<EventSeries> Marked(List<(EventForm Form, Series Series)> series)
    {
        var seen = new HashSet<OccasionKey>();
        foreach (var (form, one) in series.OrderBy(one => one.Series.First).ThenBy(one => one.Form.Key.StartNumber).ThenBy(one => one.Form.Key.Pass)
            .ThenBy(one => one.Form.Key.Step))
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
            if (Says(whole, day) && whole.Rule.CanBeginOn(day))
                return series with { Series = whole with { First = day, Except = [.. whole.Except.Where(except => except > day)] } };
        }

        return null;
    }

    /// <summary>What is shown of a series before a day on which it can begin, and so stands alone.</summary>
    private IEnumerable<Occasion> AheadOf(EventSeries series, List<Occasion> occasions)
    {
        var begin = Shown(series)?.Series.First ?? int.MaxValue;
        return occasions.Where(occasion => _clock.At(occasion.Start).Day is var day && day >= _showFrom && day < begin && Says(series.Series, day));
    }

    private static bool Says(Series series, int day) =>
        day >= series.First && !(day > series.Last) && series.Rule.Contains(day, series.First) && series.Except.BinarySearch(day) < 0;

    private bool IsShown(Occasion occasion) => _clock.At(occasion.Start).Day >= _showFrom;

    /// <summary>Whether some start of a schedule goes on after the horizon, other than in series without an end.</summary>
    private bool IsCut(Schedule schedule, ImmutableArray<OccasionKey> keys, HashSet<OccasionKey> endless)
    {
        return schedule.Starts.Any(start =>
            GoesOn(schedule, start, shown) && Unless(keys.Where(key => key.StartNumber == 0 || key.StartNumber == start.Number)));

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
