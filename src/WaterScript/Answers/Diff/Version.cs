using System.Collections.Immutable;
using System.Runtime.InteropServices;
using NodaTime;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Diff;

/// <summary>The waterings of one version, second by second, with their sums. Of a manual schedule they are those of one pass at noon of the first date.</summary>
internal sealed class Version : IDisposable
{
    private readonly Site _site;
    private readonly Names _zoneNames;
    private readonly int[] _zones;
    private readonly int[] _schedules;
    private readonly WateringSums[] _sums;
    private readonly long[] _seconds;
    private readonly PriorityQueue<IEnumerator<Run>, long> _streams = new();
    private readonly List<Watered> _now = [];

    /// <param name="site">The version.</param>
    /// <param name="other">The other one.</param>
    /// <param name="horizon">The dates to compare.</param>
    /// <param name="zones">Numbers of zones.</param>
    /// <param name="schedules">Numbers of schedules.</param>
    public Version(Site site, Site other, Horizon horizon, Names zones, Names schedules)
    {
        (_site, _zoneNames, Counts) = (site, zones, new RunCounts(site));
        _zones = [.. site.Zones.Select(zone => zones.NumberOf(zone.Name))];
        _schedules = [.. site.Schedules.Select(schedule => schedules.NumberOf(schedule.Name))];
        _seconds = new long[site.Zones.Length];
        var timetable = Timetable.Of(site, horizon);
        var others = other.Schedules.Select(schedule => schedule.Name).ToHashSet(StringComparer.Ordinal);
        _sums = [.. site.Schedules.Select(schedule => new WateringSums(schedule, timetable.LongestSecondsOf(schedule.Index), others.Contains(schedule.Name) ? null : new Fingerprint()))];
        Advance(timetable.Runs().GetEnumerator());
        foreach (var manual in site.Schedules.Where(schedule => schedule.IsManual))
            Advance(Timetable.OfOnePass(site, manual, horizon.From.At(LocalTime.Noon)).Runs().GetEnumerator());
    }

    /// <summary>The runs so far.</summary>
    public RunCounts Counts { get; }

    /// <summary>When the next watering begins, in Unix seconds.</summary>
    public long NextStart => _streams.TryPeek(out _, out var start) ? start : long.MaxValue;

    /// <summary>All that begins at a second, ordered, if that is the next; else nothing. It stands until it is asked for again.</summary>
    public ReadOnlySpan<Watered> TakeAt(long second)
    {
        _now.Clear();
        while (NextStart == second)
        {
            var stream = _streams.Dequeue();
            Add(stream.Current);
            Advance(stream);
        }

        _now.Sort();
        foreach (var watered in _now) _sums[watered.Index].Fingerprint?.Add(second, watered.To, watered.Zone);
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
        Counts.Add(run.Schedule);
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
