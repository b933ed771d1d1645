using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Time;

/// <summary>Waterings of two passes that leave a supply less than its gap.</summary>
internal sealed class ChangeOverTooShort : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("change-over-too-short", Severity.Warning, "two waterings of a supply closer than its gap")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            A supply has a `change-over gap`, and a pass begins to water from it sooner than that after another pass has stopped. Inside a pass the
            gap is part of the plan; between passes nothing is shifted. The gap of a supply that feeds others is that between its branches, and of one
            without a gap of its own; a tank on the way stands between them.
            """,
        Matters = """
            The gap is there for something: a valve that closes slowly, a pump that has to come to rest, a pressure that has to settle. Without
            it both valves are open for a moment, or the pump starts against its own pressure.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply tap { change-over gap 5 s }
            zone beds { output 1 }
            zone lawn { output 2 }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 10 min }
            }
            schedule weekend {
              on sat
              start at 06:10
              steps { water lawn for 10 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply tap { change-over gap 5 s }
            zone beds { output 1 }
            zone lawn { output 2 }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 10 min }
            }
            schedule weekend {
              on sat
              start at 06:11
              steps { water lawn for 10 min }
            }
            """,
        FixSafety = "Moves the later start, or lengthens the repeat interval. Unsafe: the watering comes later.",
        KnownLimits = """
            Waterings that overlap are no change-over and are not looked at here. Nor is a zone that runs on from one pass to the next without
            a break: its valve stays open. Where a line makes passes of one schedule overlap, `pass-overlap` says so and this rule says nothing more of it.
            """,
    };

    private readonly LintContext _context;

    /// <summary>By zone: its last watering, which a run that touches it makes longer.</summary>
    private readonly Watering?[] _last;

    /// <summary>By supply, where it has a gap: waterings from it or its branches that ended less than the gap ago, or go on.</summary>
    private readonly List<Watering>?[] _lately;

    /// <summary>Waterings that begin at the moment that is looked at: whether one before them ends there shows when all of its runs are seen.</summary>
    private readonly List<Watering> _beginning = [];

    private readonly Dictionary<(Location Earlier, Location Later, int Supply), Close> _close = [];

    public ChangeOverTooShort(LintContext context)
    {
        _context = context;
        _last = new Watering?[context.Site.Zones.Length];
        _lately = [.. context.Site.Supplies.Select(supply => supply.Change is { IsOverlap: false } ? new List<Watering>() : null)];
    }

    public bool Observes(Zone zone) => WithGap(zone).Any();

    /// <summary>The supplies with a gap that a zone draws from, its own before those that feed it.</summary>
    private IEnumerable<Supply> WithGap(Zone zone) => zone.Supply is { } supply ? supply.WithFeeders().Where(on => _lately[on.Index] is not null) : [];

    public void Visit(in Run run)
    {
        if (_beginning.Count > 0 && _beginning[0].Start < run.Start) Judge();
        if (_last[run.Zone] is { } last && run.Start <= last.End) last.GoOnWith(run);
        else _beginning.Add(_last[run.Zone] = new Watering(run));
    }

    public IEnumerable<Finding> Findings()
    {
        Judge();
        return _close
            .Where(entry => !IsReported(entry.Key.Later, entry.Value))
            .Select(entry => FindingFor(entry.Key.Later, _context.Site.Supplies[entry.Key.Supply], entry.Value));
    }

    /// <summary>Whether `pass-overlap` says of the same line that a pass begins too soon after another one of its schedule.</summary>
    private bool IsReported(Location cause, Close close) =>
        close.Earlier.Schedule == close.Later.Schedule && _context.PassMeetings.Has(close.Later.Schedule, cause);

    /// <summary>Looks at what begins at one moment.</summary>
    private void Judge()
    {
        foreach (var watering in _beginning)
        {
            foreach (var supply in WithGap(watering.ZoneIn(_context))) JudgeOn(supply, watering);
        }

        foreach (var watering in _beginning)
        {
            foreach (var supply in WithGap(watering.ZoneIn(_context))) _lately[supply.Index]!.Add(watering);
        }

        _beginning.Clear();
    }

    /// <summary>Looks at what ended before a watering, and of which the gap to it is that of a supply, not that of a branch which both draw from.</summary>
    private void JudgeOn(Supply supply, Watering watering)
    {
        var (lately, gap, own) = (_lately[supply.Index]!, GapOf(supply), watering.ZoneIn(_context).Supply!);
        lately.RemoveAll(before => before.End + gap <= watering.Start);
        foreach (var before in lately)
        {
            if (before.End <= watering.Start && own.ChangeAfter(before.ZoneIn(_context).Supply!) == supply.Change) AddPasses(before, watering, supply);
        }
    }

    private void AddPasses(Watering before, Watering watering, Supply supply)
    {
        foreach (var earlier in before.Ending)
        {
            foreach (var later in watering.Beginning)
            {
                if (!later.IsInPassOf(earlier)) Add(earlier, later, supply);
            }
        }
    }

    private static long GapOf(Supply supply) => supply.Change!.Length.WholeSeconds();

    private void Add(in Run earlier, in Run later, Supply supply)
    {
        var key = (CauseOf(earlier, earlier), CauseOf(earlier, later), supply.Index);
        if (!_close.TryGetValue(key, out var close)) _close[key] = close = new Close(earlier, later);
        close.Add(earlier, later, _context);
    }

    /// <summary>The line that a run comes from: the repeat where both are of one start of a date, else the start.</summary>
    private Location CauseOf(in Run earlier, in Run later) =>
        earlier.Number != later.Number && IsRepeat(earlier, later) ? _context.Site.Schedules[later.Schedule].Repeat!.Origin : _context.StartOf(later);

    private bool IsRepeat(in Run earlier, in Run later) =>
        earlier.Schedule == later.Schedule && earlier.Day == later.Day && earlier.StartNumber == later.StartNumber
            && _context.Site.Schedules[later.Schedule].Repeat is not null;

    private Finding FindingFor(Location cause, Supply supply, Close close)
    {
        var (earlier, later) = (close.Earlier, close.Later);
        var gap = GapOf(supply);
        var between = later.Start - earlier.End;
        var start = _context.StartOf(earlier);
        var before = $"waters {ZoneOf(earlier).Name} until {_context.Time(earlier.End)}";
        var wish = new Label(supply.Change!.Origin, $"needs {Phrases.Length(gap)}");
        var heading = between == 0
            ? $"supply {supply.Name} has no gap between two waterings, needs {Phrases.Length(gap)}"
            : $"supply {supply.Name} has {Phrases.Length(between)} between two waterings, needs {Phrases.Length(gap)}";
        return Finding.At(Rule, cause, heading, $"waters {ZoneOf(later).Name} from {_context.Time(later.Start)}") with
        {
            Excess = gap - between,
            Others = start == cause ? [wish] : [new Label(start, before), wish],
            Details = start == cause ? $"The one before {before}." : "",
            Happens = close.OccurrenceCounter.Happens(_context),
            Help = $"Start the later one {Phrases.Length(gap - close.Shortest)} later or more, or shorten the one before.",
            Fix = FixFor(cause, later, gap - close.Shortest),
        };
    }

    private Fix? FixFor(Location cause, in Run later, long seconds)
    {
        var schedule = _context.Site.Schedules[later.Schedule];
        return schedule.Repeat is { } repeat && repeat.Origin == cause ? LongerRepeat.By(repeat, seconds) : MovedStart.OfOnly(schedule, seconds)?.Fix;
    }

    private Zone ZoneOf(in Run run) => _context.Site.Zones[run.Zone];

    private sealed class Close(Run earlier, Run later)
    {
        private long _moment = long.MinValue;

        public Run Earlier { get; } = earlier;

        public Run Later { get; } = later;

        public OccurrenceCounter OccurrenceCounter { get; } = new();

        /// <summary>The least that ever lies between, in seconds.</summary>
        public long Shortest { get; private set; } = long.MaxValue;

        /// <summary>Zones that open together are one time.</summary>
        public void Add(in Run earlier, in Run later, LintContext context)
        {
            Shortest = Math.Min(Shortest, later.Start - earlier.End);
            if (later.Start == _moment) return;
            _moment = later.Start;
            OccurrenceCounter.Add(later.Start, context);
        }
    }

    /// <summary>A zone is watered without a break, by one pass or by several: its valve opens and closes once.</summary>
    private sealed class Watering(Run run)
    {
        /// <summary>The runs with which it begins, of one pass or of several at once.</summary>
        public List<Run> Beginning { get; } = [run];

        /// <summary>The runs with which it ends, so far.</summary>
        public List<Run> Ending { get; } = [run];

        public long Start => Beginning[0].Start;

        public long End => Ending[0].End;

        public Zone ZoneIn(LintContext context) => context.Site.Zones[Beginning[0].Zone];

        public void GoOnWith(in Run run)
        {
            if (run.Start == Start) Beginning.Add(run);
            if (run.End > End) Ending.Clear();
            if (Ending.Count == 0 || run.End == End) Ending.Add(run);
        }
    }
}
