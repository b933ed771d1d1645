using System.Collections.Immutable;
using NodaTime;
using WaterScript.Answers.Audit.Lists;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Documents.Timetables.Deployed;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Audit;

/// <summary>
/// The runs of a site from the date on which a log begins, drawn as far as the log has come. Those of passes after the log's last date are none of
/// them. They are calculated a year at a time, so that nobody looks through later years for the next run of a site that is shut.
/// </summary>
internal sealed class MeantRuns : IDisposable
{
    private const int DaysAtOnce = 365;

    /// <summary>Comparing a run with the log, beside calculating it.</summary>
    private const int WorkOfRun = 20;

    private static readonly LocalDate LastDate = LocalDate.MaxIsoValue.PlusYears(-2);

    private readonly Site _site;
    private readonly ZoneClock _clock;
    private readonly PriorityQueue<(IEnumerator<Run> Runs, int List), (long Start, LocalDate Year)> _years = new();
    private Timetable? _latest;
    private long? _longestPass;
    private LocalDate _until;
    private long _endOfDay = long.MinValue;
    private long _reached;

    /// <param name="site">The site.</param>
    /// <param name="clock">Its clock.</param>
    /// <param name="from">When the log begins, in Unix seconds.</param>
    public MeantRuns(Site site, ZoneClock clock, long from)
    {
        (_site, _clock, _reached) = (site, clock, from);
        Budget = new WorkBudget(Limits.CheckWorkOf(site.SourceLength));
        _until = LocalDate.Min(CivilDate.FromDayNumber(clock.At(from).Day).ToLocalDate(), LastDate);
        GoTo(from);
    }

    /// <summary>Those of a timetable that is deployed.</summary>
    public MeantRuns(DeployedTimetable deployed, ZoneClock clock, long from)
    {
        (_site, _clock, _reached, _until) = (deployed.Site, clock, from, LastDate);
        Budget = new WorkBudget(long.MaxValue);
        var first = clock.StartOfDay(clock.At(from).Day);
        Advance(deployed.Runs().Where(run => run.PassStart >= first).GetEnumerator(), LastDate);
        GoTo(from);
    }

    /// <summary>Those of several lists, also where a device had another; <see cref="List"/> says of which a run is.</summary>
    public MeantRuns(Site site, ImmutableArray<GivenList> lists, ZoneClock clock, long from)
    {
        (_site, _clock, _reached, _until) = (site, clock, from, LastDate);
        Budget = new WorkBudget(long.MaxValue);
        var first = clock.StartOfDay(clock.At(from).Day);
        foreach (var (index, list) in lists.Index())
            Advance(list.Openings.Where(run => run.PassStart >= first).GetEnumerator(), list.Dates.From, index);
        GoTo(from);
    }

    /// <summary>Counts the work, of which the length of the log allows more.</summary>
    public WorkBudget Budget { get; }

    /// <summary>How many were drawn.</summary>
    public long Count { get; private set; }

    /// <summary>Index of the list that the last one drawn is of, where there are several.</summary>
    public int List { get; private set; }

    /// <summary>When the next starts that was not drawn, in Unix seconds; where that is too much work to find, when the last one did.</summary>
    public long NextStart => Budget.IsUsedUp ? _reached : _years.TryPeek(out _, out var next) ? next.Start : long.MaxValue;

    /// <summary>The log has come to a moment, in Unix seconds.</summary>
    public void GoTo(long moment)
    {
        if (moment >= _endOfDay) _endOfDay = _clock.StartOfDay(_clock.At(moment).Day + 1);
        // A day before it is needed: what opens a little too early belongs to a run of the next date.
        while (!Budget.IsUsedUp && _until < LastDate && _clock.StartOfDay(CivilDate.DayNumberOf(_until) - 1) < _endOfDay) AddYear();
    }

    /// <summary>The next run that starts by then and is of a pass that starts on a date of the log; false where there is none, yet.</summary>
    public bool TryTake(decimal until, out Run run)
    {
        run = default;
        return NextStart <= until && _years.TryPeek(out var source, out _) && source.Runs.Current.PassStart < _endOfDay && TryDraw(out run);
    }

    /// <summary>The next run of a pass that starts on a date of the log, wherever it is; false where there is none.</summary>
    public bool TryTakeLast(out Run run)
    {
        _longestPass ??= LongestPass();
        while (NextStart <= _endOfDay + _longestPass && TryDraw(out run))
        {
            if (run.PassStart < _endOfDay) return true;
        }

        run = default;
        return false;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (var (source, _) in _years.UnorderedItems) source.Runs.Dispose();
    }

    private void AddYear()
    {
        var year = Horizon.DaysFrom(_until, DaysAtOnce);
        _until = year.Until;
        _latest = Timetable.Of(_site, year, Budget);
        Advance(_latest.Runs().GetEnumerator(), year.From);
    }

    /// <summary>How long a pass may last, in seconds; of a deployed timetable nobody knows.</summary>
    private long LongestPass()
    {
        if (_latest is not { } timetable) return Limits.PassDays * ZoneClock.SecondsInDay;
        try
        {
            return _site.Schedules.Select(schedule => timetable.LongestSecondsOf(schedule.Index)).DefaultIfEmpty().Max();
        }
        catch (WorkUsedUpException)
        {
            return 0;
        }
    }

    private bool TryDraw(out Run run)
    {
        run = default;
        if (Budget.IsUsedUp || !_years.TryDequeue(out var source, out var next)) return false;
        run = source.Runs.Current;
        List = source.List;
        Count++;
        _reached = run.Start;
        Advance(source.Runs, next.Year, source.List);
        return true;
    }

    private void Advance(IEnumerator<Run> runs, LocalDate year, int list = 0)
    {
        try
        {
            Budget.Spend(WorkOfRun);
            if (runs.MoveNext()) _years.Enqueue((runs, list), (runs.Current.Start, year));
            else runs.Dispose();
        }
        catch (WorkUsedUpException)
        {
            // How far the runs came is what NextStart says.
        }
    }
}
