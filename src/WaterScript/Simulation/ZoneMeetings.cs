using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Simulation;

/// <summary>Finds runs of different schedules that use one zone at once, while the runs stream past.</summary>
internal sealed class ZoneMeetings(Site site, ZonePlans plans, Action<long> spend) : IRunObserver
{
    private const int WorkOfMeeting = 8;

    private readonly List<Run>?[] _open = new List<Run>?[site.Zones.Length];
    private readonly Dictionary<(int First, int Second), ZoneMeeting> _meetings = [];
    private (int First, int Second) _latestPair;
    private ZoneMeeting? _latest;

    /// <summary>A meeting for each pair of schedules, in order of the file.</summary>
    public IEnumerable<ZoneMeeting> All => _meetings.OrderBy(meeting => meeting.Key).Select(meeting => meeting.Value);

    /// <summary>Whether two schedules use one zone at once.</summary>
    public bool Has(int first, int second) => _meetings.ContainsKey(PairOf(first, second));

    /// <summary>Two schedules as a pair, whichever comes first.</summary>
    public static (int First, int Second) PairOf(int first, int second) => first < second ? (first, second) : (second, first);

    /// <inheritdoc/>
    public bool Observes(Zone zone) => plans.IsShared(zone);

    /// <inheritdoc/>
    public void Visit(in Run run)
    {
        var open = _open[run.Zone] ??= [];
        spend(open.Count * 2L);
        var kept = 0;
        for (var i = 0; i < open.Count; i++)
        {
            if (open[i].End <= run.Start) continue;
            if (open[i].Schedule != run.Schedule) Meet(open[i], run);
            open[kept++] = open[i];
        }

        open.RemoveRange(kept, open.Count - kept);
        open.Add(run);
    }

    private void Meet(in Run earlier, in Run later)
    {
        var pair = PairOf(earlier.Schedule, later.Schedule);
        if (_latest is null || pair != _latestPair)
        {
            _latestPair = pair;
            if (!_meetings.TryGetValue(pair, out _latest)) _meetings[pair] = _latest = new ZoneMeeting(earlier, later);
        }

        _latest.Add(earlier, later);
        spend(WorkOfMeeting);
    }
}

/// <summary>Two schedules that use the same zones at once.</summary>
/// <param name="earlier">The run under way, the first time.</param>
/// <param name="later">The run that begins meanwhile.</param>
internal sealed class ZoneMeeting(Run earlier, Run later)
{
    private readonly List<long> _moments = [];
    private int _latestZone = -1;

    /// <summary>The run under way, the first time.</summary>
    public Run Earlier { get; } = earlier;

    /// <summary>The run that begins meanwhile.</summary>
    public Run Later { get; } = later;

    /// <summary>Indices of the zones.</summary>
    public SortedSet<int> Zones { get; } = [];

    /// <summary>By how many seconds the schedule of <see cref="Later"/> would have to begin later to come after the other each time.</summary>
    public long LaterBy { get; private set; }

    /// <summary>When the later run begins, each time, in Unix seconds.</summary>
    public IReadOnlyList<long> Moments => _moments;

    /// <summary>Counts another pair of runs.</summary>
    public void Add(in Run earlier, in Run later)
    {
        _moments.Add(later.Start);
        if (later.Zone != _latestZone) Zones.Add(_latestZone = later.Zone);
        var (moved, other) = later.Schedule == Later.Schedule ? (later, earlier) : (earlier, later);
        LaterBy = Math.Max(LaterBy, other.End - moved.Start);
    }
}
