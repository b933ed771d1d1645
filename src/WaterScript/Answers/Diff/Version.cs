using System.Collections.Immutable;
using System.Runtime.InteropServices;
using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Diff;

/// <summary>The waterings of one version, second by second, with their sums. Of a manual schedule they are those of one pass at noon of the first date.</summary>
internal sealed class Version : IDisposable
{
    /// <summary>Comparing a run, beside calculating it.</summary>
    private const int WorkOfRun = 20;

    private readonly Site _site;
    private readonly Names _zoneNames;
    private readonly int[] _zones;
    private readonly int[] _schedules;
    private readonly WateringSums[] _sums;
    private readonly long[] _seconds;
    private readonly PriorityQueue<IEnumerator<Run>, long> _streams = new();
    private readonly List<Run> _coming = [];
    private readonly List<Watered> _now = [];
    private readonly Timetable _timetable;
    private readonly Horizon _horizon;

    /// <param name="site">The version.</param>
    /// <param name="other">The other one.</param>
    /// <param name="horizon">The dates to compare.</param>
    /// <param name="zones">Numbers of zones.</param>
    /// <param name="schedules">Numbers of schedules.</param>
    public Version(Site site, Site other, Horizon horizon, Names zones, Names schedules)
    {
        (_site, _zoneNames, _horizon) = (site, zones, horizon);
        Budget = new WorkBudget(Limits.CheckWorkOf(site.SourceLength) / 2);
        _timetable = Timetable.Of(site, horizon, Budget);
        _zones = [.. site.Zones.Select(zone => zones.NumberOf(zone.Name))];
        _schedules = [.. site.Schedules.Select(schedule => schedules.NumberOf(schedule.Name))];
        _seconds = new long[site.Zones.Length];
        var others = other.Schedules.Select(schedule => schedule.Name).ToHashSet(StringComparer.Ordinal);
        _sums = [.. site.Schedules.Select(schedule => new WateringSums(schedule, _timetable.LongestSecondsOf(schedule.Index), others.Contains(schedule.Name) ? null : new Fingerprint()))];
    }

    /// <summary>Counts the work.</summary>
    public WorkBudget Budget { get; }

    /// <summary>How many runs were compared so far.</summary>
    public long Runs { get; private set; }

    /// <summary>The site.</summary>
    public Site Site => _site;

    /// <summary>When the next watering begins, in Unix seconds.</summary>
    public long NextStart => _streams.TryPeek(out _, out var start) ? start : long.MaxValue;

    /// <summary>Goes to the first watering.</summary>
    /// <exception cref="WorkUsedUpException">That is too much work.</exception>
    public void Begin()
    {
        Advance(_timetable.Runs().GetEnumerator());
        foreach (var manual in _site.Schedules.Where(schedule => schedule.IsManual))
            Advance(Timetable.OfOnePass(_site, manual, _horizon.From.At(LocalTime.Noon), Budget).Runs().GetEnumerator());
    }

    /// <summary>Goes past all that begins at a second, if that is the next. It counts only when it is taken, so that both versions have come equally far where one cannot go on.</summary>
    /// <exception cref="WorkUsedUpException">There is too much work.</exception>
    public void GoPast(long second)
    {
        _coming.Clear();
        while (NextStart == second)
        {
            var stream = _streams.Dequeue();
            _coming.Add(stream.Current);
            Budget.Spend(WorkOfRun, stream.Current.Schedule);
            Advance(stream);
        }
    }

    /// <summary>What was gone past last, ordered. It stands until it is asked for again.</summary>
    public ReadOnlySpan<Watered> Take()
    {
        _now.Clear();
        foreach (var run in _coming) Add(run);
        _now.Sort();
        foreach (var watered in _now) _sums[watered.Index].Fingerprint?.Add(_coming[0].Start, watered.To, watered.Zone);
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

    private void Add(in Run run)
    {
        var isManual = _site.Schedules[run.Schedule].IsManual;
        Runs++;
        _sums[run.Schedule].Add(run, _zones[run.Zone]);
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
