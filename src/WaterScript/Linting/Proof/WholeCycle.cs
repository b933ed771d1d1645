using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;

namespace WaterScript.Linting.Proof;

/// <summary>
/// Finds schedules that meet only after the horizon. Their dates are compared as bits over the 400 years after which the calendar
/// repeats, weekdays and intervals for ever by arithmetic; a date on which two may meet is then calculated in full.
/// </summary>
internal sealed class WholeCycle
{
    private const int LastYear = 9_500;

    /// <summary>Days that passes may reach into others' and still be compared.</summary>
    private const int FarthestShift = 31;

    /// <summary>Dates that are calculated in full for two starts before it stays undecided.</summary>
    private const int FullDates = 10;

    /// <summary>
    /// Work of finding 400 years of dates, of calculating two in full, of comparing all with others, and of each run in them; one is a date that is
    /// looked at.
    /// </summary>
    private const int WorkOfDays = 10_000, WorkOfFullDates = 10_000, WorkOfComparing = 100, WorkOfRun = 20;

    private readonly SimulationContext _context;
    private readonly ZoneMeetings _meetings;
    private readonly bool _isPossible;
    private readonly int _first;
    private readonly ImmutableArray<ImmutableArray<SteadyStart>> _starts;
    private readonly ImmutableArray<string> _moving;
    private readonly Dictionary<(Claims, Claims, int Shift), bool> _meet = [];
    private ImmutableArray<LaterMeeting>? _ofZones;
    private long _work;
    private readonly ComparedPairs _pairs = new();
    private bool _isUndecided;
    private bool _needsCalendar;

    /// <param name="context">The site, and the dates that are looked at.</param>
    /// <param name="meetings">Runs of those dates that use one zone at once.</param>
    /// <param name="isPossible">Whether all dates were looked at, so that what comes after them can be.</param>
    public WholeCycle(SimulationContext context, ZoneMeetings meetings, bool isPossible)
    {
        (_context, _meetings) = (context, meetings);
        _isPossible = isPossible && context.Manual is null && context.Site.Effective.Year <= LastYear;
        _first = CivilDate.DayNumberOf(context.Site.Effective);
        var starts = context.Site.Schedules.Select(schedule => (schedule.Name, Starts: schedule.IsExtra ? [] : SteadyStart.Of(context, schedule))).ToArray();
        _starts = [.. starts.Select(schedule => schedule.Starts ?? [])];
        _moving = [.. starts.Where(schedule => schedule.Starts is null).Select(schedule => schedule.Name)];
    }

    /// <summary>What is decided; whole when all rules have asked. Null when the 400 years would go past the last year.</summary>
    public ConflictProof? ConflictProof => !_isPossible ? null
        : new ConflictProof(CivilDate.FromDayNumber(_first + CivilDate.DaysInCycle).ToLocalDate(), _moving, !_isUndecided)
        {
            Pairs = _pairs.Counts,
            IsForEver = !_needsCalendar && !_isUndecided && !HasClockChanges,
        };

    /// <summary>Whether the clock is still put forward or back after the horizon; what only such a change makes is not looked for.</summary>
    private bool HasClockChanges =>
        _context.Site.TimeZone.GetZoneInterval(_context.Site.TimeZone.AtStartOfDay(_context.Horizon.Until).ToInstant()).HasEnd;

    /// <summary>Schedules that use one zone at once, and do not within the horizon.</summary>
    public ImmutableArray<LaterMeeting> OfZones => _ofZones ??= [.. Pairs(ClaimKind.OfZones, _context.SchedulesBy(zone => zone.Index), _meetings.Has)];

    /// <summary>The first meeting of each pair of schedules that do not meet within the horizon, in order of the file.</summary>
    /// <param name="kind">What they must not have at once.</param>
    /// <param name="groups">Schedules that may have the same, as indexes.</param>
    /// <param name="isKnown">Whether two schedules are known to meet, so that nothing more has to be said of them.</param>
    public IEnumerable<LaterMeeting> Pairs(ClaimKind kind, IEnumerable<ImmutableArray<int>> groups, Func<int, int, bool> isKnown)
    {
        if (!_isPossible) return [];
        var found = new SortedDictionary<(int, int), LaterMeeting?>();
        foreach (var group in groups)
        {
            for (var i = 0; i < group.Length; i++)
            {
                for (var j = i + 1; j < group.Length && Compares(group[i], group[j]); j++)
                {
                    var pair = (group[i], group[j]);
                    if (!found.ContainsKey(pair) && !isKnown(pair.Item1, pair.Item2)) found[pair] = Counted(kind, pair.Item1, pair.Item2);
                }
            }
        }

        return found.Values.OfType<LaterMeeting>();
    }

    /// <summary>The first meeting of two passes of each schedule of which none meet within the horizon.</summary>
    /// <param name="isKnown">Whether a schedule is known to meet itself.</param>
    public IEnumerable<LaterMeeting> WithThemselves(Func<int, bool> isKnown) => _isPossible
        ? _context.Site.Schedules.Where(schedule => !isKnown(schedule.Index)).Select(schedule => FirstOf(ClaimKind.OfPasses, schedule.Index, schedule.Index))
            .OfType<LaterMeeting>()
        : [];

    /// <summary>Counts a pair; false when there was too much work and there are too many to count as well, so that no more need be looked at.</summary>
    private bool Compares(int first, int second)
    {
        var isCounted = _starts[first].IsEmpty || _starts[second].IsEmpty || _pairs.Add(first, second);
        return Spend(1) || isCounted;
    }

    private LaterMeeting? Counted(ClaimKind kind, int first, int second)
    {
        var wasUndecided = _isUndecided;
        _isUndecided = _work > Limits.ProofWork && !_starts[first].IsEmpty && !_starts[second].IsEmpty;
        var meeting = FirstOf(kind, first, second);
        if (_isUndecided) _pairs.AddNotProved(first, second);
        _isUndecided |= wasUndecided;
        return meeting;
    }

    private LaterMeeting? FirstOf(ClaimKind kind, int first, int second)
    {
        LaterMeeting? earliest = null;
        for (var i = 0; i < _starts[first].Length; i++)
        {
            for (var j = first == second ? i : 0; j < _starts[second].Length; j++)
            {
                var meeting = FirstOf(kind, _starts[first][i], _starts[second][j]);
                if (meeting is not null && (earliest is null || meeting.Later.From < earliest.Later.From)) earliest = meeting;
            }
        }

        return earliest;
    }

    private LaterMeeting? FirstOf(ClaimKind kind, SteadyStart first, SteadyStart second)
    {
        var runs = first.RunsOfADate + second.RunsOfADate;
        if (!Spend(runs * WorkOfRun)) return null;
        var (ones, others) = (first.After(kind), second.After(kind));
        LaterMeeting? earliest = null;

        // The second start so many dates later: from where its end comes after the beginning of the first to where its beginning comes before the end.
        var least = (int)Math.Floor((ones.Min(one => one.From) - others.Max(other => other.To)) / (double)ZoneClock.SecondsInDay);
        var most = (int)Math.Ceiling((ones.Max(one => one.To) - others.Min(other => other.From)) / (double)ZoneClock.SecondsInDay);
        for (var shift = Math.Max(least, -FarthestShift); shift <= Math.Min(most, FarthestShift); shift++)
        {
            if (first == second && shift <= 0) continue;
            if (!Spend(runs)) return earliest;
            if (!ones.Any(one => others.Any(other => Meet(one, other, shift))) || FirstOf(kind, first, second, shift) is not { } meeting) continue;
            if (earliest is null || meeting.Later.From < earliest.Later.From) earliest = meeting;
        }

        if (least < -FarthestShift || most > FarthestShift) _isUndecided = true;
        return earliest;
    }

    private LaterMeeting? FirstOf(ClaimKind kind, SteadyStart first, SteadyStart second, int shift)
    {
        var from = CivilDate.DayNumberOf(_context.Horizon.Until) - Math.Abs(shift) - 1;
        if (!Spend(WorkOfComparing + (first.HasDays ? 0 : WorkOfDays) + (second.HasDays ? 0 : WorkOfDays))) return null;
        LaterMeeting? found = null;
        var (looked, days, last) = (0, 0, 0);
        foreach (var day in CommonDays(first, second, shift, from))
        {
            if (!Spend(1)) return found;
            if (!Meet(first.On(kind, day), second.On(kind, day + shift), shift) || (shift == 0 && IsOneStart(first, second, day))) continue;
            (days, last) = (days + 1, day);
            if (found is not null) continue;
            if (!Spend(WorkOfFullDates + ((first.RunsOfADate + second.RunsOfADate) * WorkOfRun))) return null;
            found = FullyOn(kind, first, second, day, shift);
            if (found is null && ++looked == FullDates)
            {
                _isUndecided = true;
                return null;
            }
        }

        return found is null ? AfterAll(kind, first, second, shift) : found with { Days = days, LastDay = last };
    }

    /// <summary>Starts of one schedule that fall on one moment of a date are one.</summary>
    private static bool IsOneStart(SteadyStart first, SteadyStart second, int day) =>
        first.Schedule == second.Schedule && first.FirstOn(day) == second.FirstOn(day);

    private IEnumerable<int> CommonDays(SteadyStart first, SteadyStart second, int shift, int from)
    {
        var days = first.DaysOver(_first, CivilDate.DaysInCycle);
        var others = second.DaysOver(_first, CivilDate.DaysInCycle);
        for (var day = days.Next(from); day is { } due; day = days.Next(due + 1))
        {
            if (others.Contains(due + shift)) yield return due;
        }
    }

    private bool Meet(Claims one, Claims other, int shift)
    {
        if (!_meet.TryGetValue((one, other, shift), out var meet)) _meet[(one, other, shift)] = meet = one.Meet(other, (long)shift * ZoneClock.SecondsInDay);
        return meet;
    }

    /// <summary>Weekdays and intervals that do not meet in 400 years may do so later.</summary>
    private LaterMeeting? AfterAll(ClaimKind kind, SteadyStart first, SteadyStart second, int shift)
    {
        if (first.Cycles is not { } cycles || second.Cycles is not { } others || first.After(kind).Length > 1 || second.After(kind).Length > 1)
        {
            _needsCalendar = true;
            return null;
        }

        var end = CivilDate.DayNumberOf(LocalDate.MaxIsoValue) - FarthestShift - 1;
        var from = _first + CivilDate.DaysInCycle - Math.Abs(shift);
        var day = cycles.SelectMany(cycle => others.Select(other => cycle.FirstWith(other, shift, from))).Where(day => day < end).Min();
        if (day is { } due && FullyOn(kind, first, second, (int)due, shift) is { } meeting) return meeting with { IsForEver = true };
        _needsCalendar |= cycles.Any(cycle => others.Any(other => cycle.FirstWith(other, shift, from) is not null));
        return null;
    }

    /// <summary>Calculates the passes of a date of each of two starts in full, with clock changes, holds and closed seasons.</summary>
    private LaterMeeting? FullyOn(ClaimKind kind, SteadyStart first, SteadyStart second, int day, int shift)
    {
        ImmutableArray<Schedule> schedules = first.Schedule == second.Schedule
            ? [OnlyOn(first.Schedule, 0, day, day + shift)]
            : [OnlyOn(first.Schedule, 0, day), OnlyOn(second.Schedule, 1, day + shift)];
        var from = CivilDate.FromDayNumber(Math.Max(Math.Min(day, day + shift) - FarthestShift, _first)).ToLocalDate();
        var timetable = Timetable.Of(_context.Site with { Schedules = schedules }, Horizon.DaysFrom(from, (3 * FarthestShift) + 1));
        ImmutableArray<Run> runs =
            [.. timetable.Runs().Select(run => run with { Schedule = run.Schedule == 0 ? first.Schedule.Index : second.Schedule.Index })];
        var under = new List<Claim>();
        foreach (var later in kind.Of(runs).OrderBy(claim => claim.From))
        {
            under.RemoveAll(claim => claim.To <= later.From);
            var earlier = under.FindIndex(claim => claim.What == later.What && IsOther(claim.Run, later.Run, schedules.Length));
            if (earlier >= 0) return new LaterMeeting(under[earlier], later, day, Days: 1, IsForEver: false);
            under.Add(later);
        }

        return null;
    }

    /// <summary>A schedule on some dates of its own only.</summary>
    private static Schedule OnlyOn(Schedule schedule, int index, params int[] days)
    {
        var dates = days.Select(day => CivilDate.FromDayNumber(day).ToLocalDate());
        return schedule with { Index = index, Days = [.. dates.Select(date => new DateRange(date, date))], Except = [] };
    }

    private static bool IsOther(in Run earlier, in Run later, int schedules) =>
        schedules == 1 ? !earlier.IsInPassOf(later) : earlier.Schedule != later.Schedule;

    /// <summary>Counts work; false when there was too much, and the rest stays undecided.</summary>
    private bool Spend(long work)
    {
        _work += work;
        if (_work > Limits.ProofWork) _isUndecided = true;
        return _work <= Limits.ProofWork;
    }
}
