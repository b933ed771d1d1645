using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Timetables;

/// <summary>What takes watering away that is due.</summary>
internal enum SkipCause
{
    /// <summary>A hold.</summary>
    Hold,

    /// <summary>A closed season.</summary>
    ClosedSeason,

    /// <summary>A <c>cut off at</c> line.</summary>
    Cut,

    /// <summary>A restriction that the schedule keeps to.</summary>
    Restriction,

    /// <summary>Scale and trim, which bring it to nothing or under the zone's shortest.</summary>
    Scale,
}

/// <summary>Watering of a zone that is due and does not come, all for one cause.</summary>
/// <param name="By">What kind of cause.</param>
/// <param name="Origin">Where the cause is written.</param>
/// <param name="Because">The reason given there, or null.</param>
/// <param name="Zone">The zone.</param>
/// <param name="Runs">Runs of which all or a part is taken.</param>
/// <param name="Seconds">The time taken.</param>
/// <param name="First">When the first of those runs is due, in Unix seconds.</param>
/// <param name="Last">When the last of them is due.</param>
internal sealed record SkippedWatering(
    SkipCause By, Location Origin, string? Because, Zone Zone, long Runs, long Seconds, long First, long Last)
{
    /// <summary>The schedule that is skipped only because it starts after one that is: the cause does not name this zone. Null where it does.</summary>
    public Schedule? Follower { get; init; }

    /// <summary>When those runs are due: of each date in UTC the first and the last.</summary>
    public DayMoments Moments { get; } = new();

    /// <summary>The longest stretch without water that it brings: from the end of the watering before, or when it is due, to the next.</summary>
    public long LongestDry { get; init; }
}

/// <summary>What is due over a timetable and does not come, added up while the timetable streams past.</summary>
internal sealed class SkippedWater
{
    private readonly Dictionary<(Location Origin, int Zone), SkippedWatering> _water = [];
    private readonly Dictionary<int, long> _wetUntil = [];
    private readonly Dictionary<int, List<(Location Origin, long Since)>> _dry = [];

    /// <summary>An entry for each cause and zone, in the order in which they were first met.</summary>
    public IEnumerable<SkippedWatering> Water => _water.Values;

    /// <summary>Takes note of a run that comes, in order of the starts.</summary>
    internal void Watered(int zone, long start, long end)
    {
        EndDry(zone, start);
        _wetUntil[zone] = Math.Max(end, _wetUntil.GetValueOrDefault(zone, long.MinValue));
    }

    /// <summary>Ends what is still dry at the end of what is looked at.</summary>
    internal void End(long instant)
    {
        foreach (var zone in _dry.Keys) EndDry(zone, instant);
    }

    private void EndDry(int zone, long instant)
    {
        if (!_dry.TryGetValue(zone, out var causes) || causes.Count == 0) return;
        foreach (var (origin, since) in causes)
        {
            var entry = _water[(origin, zone)];
            _water[(origin, zone)] = entry with { LongestDry = Math.Max(entry.LongestDry, instant - since) };
        }

        causes.Clear();
    }

    private void BeginDry(Location origin, int zone, long due)
    {
        if (!_dry.TryGetValue(zone, out var causes)) _dry[zone] = causes = [];
        if (!causes.Exists(cause => cause.Origin == origin)) causes.Add((origin, Math.Min(due, _wetUntil.GetValueOrDefault(zone, due))));
    }

    internal void Add(SkipCause by, Location origin, string? because, Zone zone, long due, long seconds, Schedule? follower = null)
    {
        BeginDry(origin, zone.Index, due);
        var entry = _water.GetValueOrDefault((origin, zone.Index))
            ?? new SkippedWatering(by, origin, because, zone, Runs: 0, Seconds: 0, First: due, Last: due) { Follower = follower };
        _water[(origin, zone.Index)] = entry with
        {
            Runs = entry.Runs + 1,
            Seconds = entry.Seconds + seconds,
            First = Math.Min(entry.First, due),
            Last = Math.Max(entry.Last, due),
        };
        entry.Moments.Add(due, (int)Math.DivRem(due, ZoneClock.SecondsInDay).Quotient);
    }
}
