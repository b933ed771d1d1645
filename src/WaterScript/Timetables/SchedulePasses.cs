using System.Collections.Immutable;
using System.Runtime.InteropServices;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>The passes of a schedule on any date. Remembers the last date asked for, because a schedule that follows it asks again.</summary>
internal sealed class SchedulePasses
{
    private const int WorkOfDate = 5, WorkOfStart = 10, WorkOfPass = 6;

    private readonly Schedule _schedule;
    private readonly SchedulePlans _plans;
    private readonly CancellationFilter _cancellationFilter;
    private readonly ImmutableArray<DayPattern> _closed;
    private readonly ImmutableArray<(Start Start, DayPattern Days)> _starts;
    private readonly ImmutableArray<string> _daysOf;
    private readonly MomentReader _moments;
    private readonly long _notBefore;
    private readonly Func<string, SchedulePasses> _find;
    private readonly WorkBudget? _budget;
    private readonly List<(long Instant, Start Start)> _firsts = [];
    private readonly List<Pass> _passes = [];
    private readonly List<DayNote> _notes = [];
    private int? _day;
    private long? _lead, _lag;

    /// <summary>Makes them.</summary>
    /// <param name="schedule">One of the site's schedules.</param>
    /// <param name="site">The site.</param>
    /// <param name="plans">What its passes do.</param>
    /// <param name="moments">Turns moments into instants.</param>
    /// <param name="cancellationFilter">Says what is left of a run.</param>
    /// <param name="find">Gives the passes of another schedule by its name.</param>
    /// <param name="budget">Counts dates, starts and passes; may be null.</param>
    public SchedulePasses(
        Schedule schedule, Site site, SchedulePlans plans, MomentReader moments, CancellationFilter cancellationFilter, Func<string, SchedulePasses> find,
            WorkBudget? budget = null)
    {
        _schedule = schedule;
        _plans = plans;
        _moments = moments;
        _cancellationFilter = cancellationFilter;
        _find = find;
        _budget = budget;
        var days = DayPattern.Of(schedule, site.Effective);
        _starts = [.. schedule.Starts.Select(start => (start, days.NarrowedTo(start.On)))];
        _daysOf = TakenDays(schedule);
        _closed = [.. site.ClosedSeasons.Select(closed => DayPattern.Of([closed.Days], season: null, except: [], site.Effective))];
        _notBefore = moments.Clock.StartOfDay(CivilDate.DayNumberOf(site.Effective));
    }

    /// <summary>The schedule.</summary>
    public Schedule Schedule => _schedule;

    /// <summary>
    /// The passes of a date, by start as written, then in order; until the next call. Also those of which a hold, a closed
    /// season or a cut leaves nothing.
    /// </summary>
    public IReadOnlyList<Pass> On(int day)
    {
        if (_day == day) return _passes;
        _day = day;
        _passes.Clear();
        _notes.Clear();
        AddDay(day);
        return _passes;
    }

    /// <summary>The same with what a person should know about the date; until the next call.</summary>
    public ScheduleDay ScheduleDay(int day) => new(_schedule, day, On(day), _notes);

    /// <summary>The passes of a date, as <see cref="On"/> gives them, for whoever goes over all of them at once.</summary>
    public ReadOnlySpan<Pass> AllOn(int day)
    {
        _ = On(day);
        return CollectionsMarshal.AsSpan(_passes);
    }

    /// <summary>The most by which a pass can start before the midnight that begins its date, in seconds.</summary>
    public long Lead => _lead ??= _schedule.Starts.Select(LeadOf).DefaultIfEmpty().Max();

    /// <summary>The most by which a pass can start after that midnight, in seconds.</summary>
    public long Lag => _lag ??= _schedule.Starts.Select(LagOf).DefaultIfEmpty().Max() + LongestRepeatSpan;

    /// <summary>From the start of the first pass to that of the last, where it is the same every day.</summary>
    private long RepeatSpan => _schedule.Repeat is RepeatTimes times ? times.Every.WholeSeconds() * (times.Passes - 1) : 0;

    private long LongestRepeatSpan => _schedule.Repeat is RepeatUntil until ? (2 * SpareDay) + Math.Abs(OffsetOf(until.Until)) : RepeatSpan;

    /// <summary>A day with every clock change that it may hold.</summary>
    private static long SpareDay => 2 * ZoneClock.SecondsInDay;

    /// <summary>The end of the last pass of a date of which anything is left, or null when it does not run.</summary>
    private long? EndOn(int day)
    {
        long? end = null;
        var plan = _plans.On(day);
        foreach (var pass in On(day))
        {
            if (_cancellationFilter.LeavesAnyOf(pass, plan)) end = Math.Max(end ?? long.MinValue, Math.Min(pass.Start + plan.Seconds, pass.CutAt));
        }

        return end;
    }

    /// <summary>The schedules whose days hold for all its starts, because it follows them and names no days itself.</summary>
    private static ImmutableArray<string> TakenDays(Schedule schedule) =>
        schedule.Days.IsEmpty && !schedule.Starts.All(start => start is StartAfter)
            ? [.. schedule.Starts.OfType<StartAfter>().Select(start => start.Other)]
            : [];

    private void AddDay(int day)
    {
        _firsts.Clear();
        _budget?.Spend(WorkOfDate + _starts.Length, _schedule.Index);
        Silence? silence = null;
        if (!_daysOf.IsEmpty && !AnyTakenRuns(day) && (silence = SilenceOfTaken(day)) is null) return;
        foreach (var (start, days) in _starts)
        {
            if (!days.IsDue(day)) continue;
            if (FirstPass(start, day) is not { } instant || silence is not null)
            {
                AddSilent(start, day, silence);
                continue;
            }

            if (StartAtSame(instant) is { } same)
            {
                _notes.Add(new DayNote(DayNoteKind.DuplicateStart, start.Origin, same.Origin, day, instant));
                continue;
            }

            _budget?.Spend(WorkOfStart + _firsts.Count, _schedule.Index);
            _firsts.Add((instant, start));
            AddPasses(start, day, instant);
        }

        if (_passes.Count > 0) TakeAway(day);
    }

    /// <summary>The passes that there would be, were it not for what takes all of those that they start after.</summary>
    private void AddSilent(Start start, int day, Silence? silence)
    {
        if (start is StartAfter after)
        {
            var other = _find(after.Other);
            if (other.SilenceOn(day) is { } why) AddPasses(start, day, other.PlannedEndOn(day) + after.Delay.WholeSeconds(), silence ?? why);
        }
        else if (silence is not null && FirstPass(start, day) is { } instant)
        {
            AddPasses(start, day, instant, silence);
        }
    }

    /// <summary>Why nothing is left of the passes of a date on which there are some; null where there are none, or something is left.</summary>
    private Silence? SilenceOn(int day)
    {
        var passes = On(day);
        return passes.Count == 0 || EndOn(day) is not null ? null : _cancellationFilter.SilenceOf(passes[0], _plans.On(day));
    }

    private long PlannedEndOn(int day) => On(day).Max(pass => pass.Start) + _plans.On(day).Seconds;

    private Silence? SilenceOfTaken(int day) => _daysOf.Select(other => _find(other).SilenceOn(day)).FirstOrDefault(silence => silence is not null);

    private bool AnyTakenRuns(int day)
    {
        foreach (var other in _daysOf)
        {
            if (_find(other).EndOn(day) is not null) return true;
        }

        return false;
    }

    private Start? StartAtSame(long instant)
    {
        foreach (var first in _firsts)
        {
            if (first.Instant == instant) return first.Start;
        }

        return null;
    }

    /// <summary>Marks what closed seasons and cuts take; holds are looked at run by run.</summary>
    private void TakeAway(int day)
    {
        _budget?.Spend(_closed.Length, _schedule.Index);
        var closedBy = ClosedOn(day);
        var cutAt = _schedule.Cut is { } cut ? Resolve(cut.At, cut.NextDay ? day + 1 : day) ?? long.MaxValue : long.MaxValue;
        if (closedBy < 0 && cutAt == long.MaxValue) return;
        for (var i = 0; i < _passes.Count; i++) _passes[i] = _passes[i] with { CutAt = cutAt, ClosedBy = closedBy };
    }

    private int ClosedOn(int day)
    {
        for (var i = 0; i < _closed.Length; i++)
        {
            if (_closed[i].IsDue(day)) return i;
        }

        return -1;
    }

    private long? FirstPass(Start start, int day) => start switch
    {
        StartAt at => Resolve(at.Moment, day),
        FinishBy by => Resolve(by.Moment, day) - RepeatSpan - _plans.On(day).Seconds,
        StartAfter after => _find(after.Other).EndOn(day) + after.Delay.WholeSeconds(),
        _ => null,
    };

    private void AddPasses(Start start, int day, long first, Silence? silence = null)
    {
        var every = _schedule.Repeat is { } repeat ? repeat.Every.WholeSeconds() : 1;
        if (LastPass(day, first) is not { } last) return;
        if (first <= last && first < _notBefore) _notes.Add(new DayNote(DayNoteKind.BeforeEffective, start.Origin, Other: null, day, first));
        if (last < first) _notes.Add(new DayNote(DayNoteKind.NoPass, start.Origin, _schedule.Repeat?.Origin, day, first));
        _budget?.Spend(Math.Max(0, ((last - first) / every) + 1) * WorkOfPass, _schedule.Index);
        var number = 1;
        for (var instant = first; instant <= last; instant += every, number++)
        {
            if (instant >= _notBefore) _passes.Add(new Pass(instant, _schedule.Index, day, start.Number, number, Silence: silence));
        }
    }

    private long? LastPass(int day, long first) => _schedule.Repeat switch
    {
        RepeatUntil until => Resolve(until.Until, until.NextDay ? day + 1 : day),
        _ => first + RepeatSpan,
    };

    private long? Resolve(Moment moment, int day)
    {
        var reading = _moments.Read(moment, day);
        if (KindOf(reading.Note) is { } kind) _notes.Add(new DayNote(kind, moment.Origin, Other: null, day, reading.Instant));
        return reading.InstantOrNull;
    }

    private static DayNoteKind? KindOf(MomentNote note) => note switch
    {
        MomentNote.Skipped => DayNoteKind.SkippedTime,
        MomentNote.Doubled => DayNoteKind.DoubledTime,
        MomentNote.NoSunEvent => DayNoteKind.NoSunEvent,
        _ => null,
    };

    private long LeadOf(Start start) => start switch
    {
        FinishBy by => SpareDay + RepeatSpan + _plans.LongestSeconds + Math.Abs(OffsetOf(by.Moment)),
        StartAt at => SpareDay + Math.Abs(OffsetOf(at.Moment)),
        StartAfter after => _find(after.Other).Lead,
        _ => 0,
    };

    private long LagOf(Start start) => start switch
    {
        StartAt at => SpareDay + Math.Abs(OffsetOf(at.Moment)),
        FinishBy by => SpareDay + Math.Abs(OffsetOf(by.Moment)),
        StartAfter after => _find(after.Other).Lag + _find(after.Other)._plans.LongestSeconds + after.Delay.WholeSeconds(),
        _ => 0,
    };

    private static long OffsetOf(Moment moment) => moment is SunMoment sun ? sun.Offset.WholeSeconds() : 0;
}
