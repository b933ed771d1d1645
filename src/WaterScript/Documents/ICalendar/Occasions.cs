using System.Globalization;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Documents.ICalendar;

/// <summary>What the events of one schedule show, worked out from its passes: from the start of a pass to the end of its last run.</summary>
internal sealed class Occasions
{
    private readonly Timetable _timetable;
    private readonly Schedule _schedule;
    private readonly Controller? _controller;
    private readonly ZoneClock _clock;
    private readonly List<EventContent> _contents = [];
    private readonly Dictionary<string, int> _contentIndex = new(StringComparer.Ordinal);
    private readonly Dictionary<PassPlan, Shown> _shownPlans = [];
    private readonly Dictionary<string, int> _steps = new(StringComparer.Ordinal);

    public Occasions(Timetable timetable, Schedule schedule, CalendarOptions options, ZoneClock clock)
    {
        _timetable = timetable;
        _schedule = schedule;
        _controller = options.Controller;
        _clock = clock;
        Unit = options.Unit ?? (WrittenPasses.Of(schedule, timetable.Site) > CalendarOptions.MostPassesShown ? EventUnit.Day : EventUnit.Pass);
        if (Unit == EventUnit.Day && timetable.OnePass is not null) Unit = EventUnit.Pass;
    }

    /// <summary>What an event shows. A pass that was asked for alone is not the whole of its date.</summary>
    public EventUnit Unit { get; }

    /// <summary>What the events say; grows while the occasions are gone through.</summary>
    public IReadOnlyList<EventContent> Contents => _contents;

    /// <summary>The occasions of the timetable: in order of start, or of date where an event shows a whole one.</summary>
    public IEnumerable<Occasion> All() => Unit == EventUnit.Day ? Dates() : Passes();

    /// <summary>Whether on two dates a pass does the same when nothing is taken of it.</summary>
    public bool IsSamePlan(int day, int otherDay)
    {
        var (plan, other) = (_timetable.PlanOn(_schedule.Index, day), _timetable.PlanOn(_schedule.Index, otherDay));
        return ReferenceEquals(plan, other) || (plan.Seconds == other.Seconds && plan.Runs.SequenceEqual(other.Runs));
    }

    /// <summary>Whether on a date nothing is planned, because its month has a share of nothing.</summary>
    public bool IsDry(int day) => _timetable.PlanOn(_schedule.Index, day).Runs.All(run => !IsWanted(run.Zone));

    private IEnumerable<Occasion> Passes()
    {
        foreach (var pass in _timetable.DuePassesOf(_schedule))
        {
            var shown = ShownOf(pass, out var isWhole);
            foreach (var (step, offset, seconds, content) in shown.Parts)
            {
                yield return new(pass.Start + offset, pass.Start + offset + seconds, pass.Day, new(pass.StartNumber, pass.Number, step), content, isWhole);
            }
        }
    }

    private IEnumerable<Occasion> Dates()
    {
        var dates = new SortedDictionary<int, ShownDate>();
        foreach (var pass in _timetable.DuePassesOf(_schedule))
        {
            var shown = ShownOf(pass, out var isWhole);
            if (shown.Runs.Count == 0) continue;
            var date = dates.GetValueOrDefault(pass.Day) ?? new ShownDate(pass.Start, shown.Runs);
            dates[pass.Day] = date with { Count = date.Count + 1, End = Math.Max(date.End, pass.Start + shown.Seconds), IsWhole = date.IsWhole && isWhole };
        }

        foreach (var (day, date) in dates)
        {
            var heading = date.Count == 1 ? null : string.Create(CultureInfo.InvariantCulture, $"{date.Count} times, {Clock(date.Start)} to {Clock(date.End)}");
            yield return new(date.Start, date.End, day, new(StartNumber: 0, Pass: 0, Step: -1),
                IndexOf(EventContent.Of(_timetable.Site, _schedule, date.Runs, from: 0, heading)), date.IsWhole);
        }
    }

    private string Clock(long instant)
    {
        var minute = _clock.At(instant).SecondOfDay / 60;
        return string.Create(CultureInfo.InvariantCulture, $"{minute / 60:00}:{minute % 60:00}");
    }

    private Shown ShownOf(in Pass pass, out bool isWhole)
    {
        var plan = _timetable.PlanOf(pass);
        isWhole = _timetable.IsWhole(pass);
        if (isWhole) return ShownOf(plan);
        var runs = new List<ShownRun>(plan.Runs.Length);
        isWhole = true;
        foreach (var planned in plan.Runs)
        {
            if (!IsWanted(planned.Zone)) continue;
            var left = _timetable.SecondsLeft(pass, planned);
            isWhole &= left == planned.Seconds;
            if (left > 0) runs.Add(new ShownRun(planned.Offset, left, planned.Zone, planned.Step));
        }

        return isWhole ? ShownOf(plan) : Show(runs);
    }

    private Shown ShownOf(PassPlan plan)
    {
        if (_shownPlans.TryGetValue(plan, out var shown)) return shown;
        var runs = plan.Runs.Where(run => IsWanted(run.Zone)).Select(run => new ShownRun(run.Offset, run.Seconds, run.Zone, run.Step));
        return _shownPlans[plan] = Show([.. runs]);
    }

    private Shown Show(List<ShownRun> runs)
    {
        if (runs.Count == 0) return new Shown(runs, 0, []);
        var seconds = runs.Max(run => run.Offset + run.Seconds);
        if (Unit != EventUnit.Step)
            return new Shown(runs, seconds, [PartOf(step: -1, runs, offset: 0)]);
        return new Shown(runs, seconds, [.. runs.GroupBy(run => AsWritten(run.Step)).Select(step => PartOf(step.Key, [.. step], step.Min(run => run.Offset)))]);
    }

    /// <summary>Waterings that begin together stand in one step, and are one event: the first of them stands for all.</summary>
    private int AsWritten(int step)
    {
        var path = _timetable.StepPath(_schedule.Index, step);
        return _steps.TryAdd(path, step) ? step : _steps[path];
    }

    private ShownPart PartOf(int step, List<ShownRun> runs, long offset)
    {
        var content = EventContent.Of(_timetable.Site, _schedule, runs, offset, heading: null);
        return new ShownPart(step, offset, runs.Max(run => run.Offset + run.Seconds) - offset, IndexOf(content));
    }

    private int IndexOf(EventContent content)
    {
        var key = string.Join('\0', content.Zones.Prepend(content.Description(offset => offset.ToString(CultureInfo.InvariantCulture))));
        if (_contentIndex.TryGetValue(key, out var index)) return index;
        _contents.Add(content);
        return _contentIndex[key] = _contents.Count - 1;
    }

    private bool IsWanted(int zone) => _controller is null || _timetable.Site.Zones[zone].Controller?.Index == _controller.Index;

    /// <summary>What of a pass is shown.</summary>
    private sealed record Shown(List<ShownRun> Runs, long Seconds, List<ShownPart> Parts);

    private readonly record struct ShownPart(int Step, long Offset, long Seconds, int Content);

    /// <summary>What of a date is shown.</summary>
    private sealed record ShownDate(long Start, List<ShownRun> Runs)
    {
        public int Count { get; init; }

        public long End { get; init; }

        public bool IsWhole { get; init; } = true;
    }
}
