using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Simulation;

/// <summary>Finds passes of one schedule that begin before another is over, while the runs stream past.</summary>
internal sealed class PassMeetings(SimulationContext context) : IRunObserver
{
    private readonly PassesUnderWay?[] _passes = new PassesUnderWay?[context.Site.Schedules.Length];
    private readonly Dictionary<(int Schedule, Location Cause), PassMeeting> _meetings = [];

    /// <summary>A meeting for each line that makes a pass begin too soon, in the order in which they are met.</summary>
    public IReadOnlyCollection<PassMeeting> All => _meetings.Values;

    /// <summary>Whether passes of a schedule meet.</summary>
    public bool Has(int schedule) => _meetings.Keys.Any(key => key.Schedule == schedule);

    /// <summary>Whether a line makes passes of a schedule meet.</summary>
    public bool Has(int schedule, Location cause) => _meetings.ContainsKey((schedule, cause));

    /// <inheritdoc/>
    public void Visit(in Run run) => (_passes[run.Schedule] ??= new PassesUnderWay(context.Timetable, Meet)).Visit(run);

    private void Meet(PassUnderWay earlier, PassUnderWay later)
    {
        var repeat = earlier.Start == later.Start && earlier.Day == later.Day ? context.Site.Schedules[later.Schedule].Repeat : null;
        var key = (later.Schedule, repeat?.Origin ?? context.StartOf(later.Schedule, later.Start));
        if (!_meetings.TryGetValue(key, out var meeting)) _meetings[key] = meeting = new PassMeeting(key.Schedule, key.Item2, repeat);
        if (meeting.OccurrenceCounter.Add(later.First, context)) (meeting.Earlier, meeting.Later) = (earlier, later);
    }
}

/// <summary>A line that makes a pass begin before one of its schedule is over.</summary>
/// <param name="schedule">Index of the schedule.</param>
/// <param name="cause">The line: the repeat where both passes are of one start of a date, else the start.</param>
/// <param name="repeat">The repeat, where it is that.</param>
internal sealed class PassMeeting(int schedule, Location cause, Repeat? repeat)
{
    /// <summary>Index of the schedule.</summary>
    public int Schedule { get; } = schedule;

    /// <summary>The line.</summary>
    public Location Cause { get; } = cause;

    /// <summary>The repeat, where it is that.</summary>
    public Repeat? Repeat { get; } = repeat;

    /// <summary>When it happens.</summary>
    public OccurrenceCounter OccurrenceCounter { get; } = new();

    /// <summary>The pass under way, the first time.</summary>
    public PassUnderWay? Earlier { get; set; }

    /// <summary>The one that begins meanwhile.</summary>
    public PassUnderWay? Later { get; set; }
}
