using System.Collections.Immutable;
using System.Runtime.InteropServices;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Documents.Timetables.Deployed;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Diff;

/// <summary>
/// The waterings of one version, second by second, with their sums. Of a manual schedule they are those of one pass at noon of the first date.
/// </summary>
internal sealed class Version : IDisposable
{
    /// <summary>Comparing a run, beside calculating it.</summary>
    private const int WorkOfRun = 20;

    private readonly Names _zoneNames;
    private readonly int[] _zones;
    private readonly int[] _schedules;
    private readonly WateringSums[] _sums;
    private readonly long[] _seconds;
    private readonly Func<int, long> _longest;
    private readonly IEnumerable<IEnumerable<Run>> _parts;
    private readonly PriorityQueue<IEnumerator<Run>, long> _streams = new();
    private readonly List<(Run Run, long Over)> _passed = [];
    private readonly List<Watered> _now = [];

    private Version(Site site, VersionNames names, Func<int, long> longest, IEnumerable<IEnumerable<Run>> parts, WorkBudget budget,
        int mostUnderWay = int.MaxValue)
    {
        (Site, Budget, _zoneNames, _longest, _parts) = (site, budget, names.Zones, longest, parts);
        _zones = [.. site.Zones.Select(zone => names.Zones.NumberOf(names.OfZone(zone)))];
        _schedules = [.. site.Schedules.Select(schedule => names.Schedules.NumberOf(names.OfSchedule(schedule)))];
        _seconds = new long[site.Zones.Length];
        _sums = [.. site.Schedules.Select(schedule => new WateringSums(schedule, names.IsInBoth(schedule) ? null : new Fingerprint(), mostUnderWay))];
    }

    /// <summary>What a site waters.</summary>
    /// <param name="site">The version.</param>
    /// <param name="horizon">The dates to compare.</param>
    /// <param name="names">What its zones and schedules are called in both.</param>
    public static Version Of(Site site, Horizon horizon, VersionNames names)
    {
        var budget = BudgetOf(site);
        var timetable = Timetable.Of(site, horizon, budget);
        var manual = site.Schedules.Where(schedule => schedule.IsManual)
            .Select(schedule => Timetable.OfOnePass(site, schedule, horizon.From.At(LocalTime.Noon), budget).Runs());
        return new Version(site, names, timetable.LongestSecondsOf, manual.Prepend(timetable.Runs()), budget);
    }

    /// <summary>What a timetable waters that is deployed, in which manual schedules have no runs.</summary>
    public static Version Of(DeployedTimetable deployed, VersionNames names) =>
        new(deployed.Site, names, _ => Limits.PassDays * ZoneClock.SecondsInDay, [deployed.Runs()], new WorkBudget(long.MaxValue),
            Limits.RunsPerPass);

    /// <summary>What a site waters of what a deployed timetable covers.</summary>
    public static Version Of(Site site, DeployedTimetable deployed, VersionNames names)
    {
        var budget = BudgetOf(site);
        var timetable = Timetable.Of(site, deployed.Horizon, budget);
        var runs = timetable.Runs().Where(run => deployed.Controller is null || site.Zones[run.Zone].Controller?.Name == deployed.Controller.Name);
        return new Version(site, names, timetable.LongestSecondsOf, [runs], budget);
    }

    /// <summary>The site.</summary>
    public Site Site { get; }

    /// <summary>Counts the work.</summary>
    public WorkBudget Budget { get; }

    /// <summary>How many runs were taken so far.</summary>
    public long Runs { get; private set; }

    /// <summary>When the next watering begins, in Unix seconds.</summary>
    public long NextStart => _streams.TryPeek(out _, out var start) ? start : long.MaxValue;

    /// <summary>Goes to the first watering.</summary>
    /// <exception cref="WorkUsedUpException">That is too much work.</exception>
    public void Begin()
    {
        foreach (var part in _parts) Advance(part.GetEnumerator());
    }

    /// <summary>
    /// Goes past all that begins at a second, if that is the next. It counts only when it is taken, so that both versions have come equally far where one
    /// of them cannot go on.
    /// </summary>
    /// <exception cref="WorkUsedUpException">There is too much work.</exception>
    public void GoPast(long second)
    {
        _passed.Clear();
        while (NextStart == second)
        {
            var stream = _streams.Dequeue();
            var run = stream.Current;
            Budget.Spend(WorkOfRun, run.Schedule);
            _passed.Add((run, run.PassStart + _longest(run.Schedule)));
            Advance(stream);
        }
    }

    /// <summary>What was gone past last, ordered. It stands until it is asked for again.</summary>
    public ReadOnlySpan<Watered> Take()
    {
        _now.Clear();
        foreach (var (run, over) in _passed) Add(run, over);
        _now.Sort();
        foreach (var watered in _now) _sums[watered.Index].Fingerprint?.Add(_passed[0].Run.Start, watered.To, watered.Zone);
        return CollectionsMarshal.AsSpan(_now);
    }

    /// <summary>The sums of each schedule, by its index.</summary>
    /// <param name="isWhole">Whether the version came to its end.</param>
    public ImmutableArray<ScheduleWaterings> Sums(bool isWhole) => [.. _sums.Select(sums => sums.Sums(isWhole, _zoneNames.NameOf))];

    /// <summary>Seconds for which a zone was watered, manual schedules apart.</summary>
    public long SecondsOf(Zone zone) => _seconds[zone.Index];

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (var (stream, _) in _streams.UnorderedItems) stream.Dispose();
    }

    private static WorkBudget BudgetOf(Site site) => new(Limits.CheckWorkOf(site.SourceLength));

    private void Add(in Run run, long over)
    {
        var isManual = Site.Schedules[run.Schedule].IsManual;
        Runs++;
        _sums[run.Schedule].Add(run, _zones[run.Zone], over);
        _now.Add(new Watered(_schedules[run.Schedule], run.End, _zones[run.Zone], run.Schedule, isManual));
        if (!isManual) _seconds[run.Zone] += run.Seconds;
    }

    private void Advance(IEnumerator<Run> stream)
    {
        if (stream.MoveNext()) _streams.Enqueue(stream, stream.Current.Start);
        else stream.Dispose();
    }
}

/// <summary>A zone is watered from a second on.</summary>
/// <param name="Schedule">Number of the schedule, the same in both versions.</param>
/// <param name="To">Its end, in Unix seconds.</param>
/// <param name="Zone">Number of the zone, the same in both versions.</param>
/// <param name="Index">Index of the schedule in its version.</param>
/// <param name="IsManual">Whether the schedule has no calendar.</param>
internal readonly record struct Watered(int Schedule, long To, int Zone, int Index, bool IsManual) : IComparable<Watered>
{
    /// <summary>By schedule, then by end, then by zone.</summary>
    public int CompareTo(Watered other)
    {
        if (Schedule != other.Schedule) return Schedule < other.Schedule ? -1 : 1;
        return CompareWatering(other);
    }

    /// <summary>By end, then by zone, whatever the schedule.</summary>
    public int CompareWatering(Watered other) => To != other.To ? To.CompareTo(other.To) : Zone.CompareTo(other.Zone);
}
