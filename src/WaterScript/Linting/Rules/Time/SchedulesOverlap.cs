using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Proof;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;

namespace WaterScript.Linting.Rules.Time;

/// <summary>Two schedules that run at once on one controller.</summary>
internal sealed class SchedulesOverlap : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("schedules-overlap", Severity.Advice, "two schedules that run at once on one controller")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            A pass of one schedule runs while one of another does, on one controller. With `schedules never-overlap` it is an error: the
            controller cannot do it. With `schedules may-overlap` nothing is said. A pass lasts from its first watering on that controller to the
            end of its last, with what lies between.
            """,
        Matters = """
            Flow and current add up, and many controllers wait, skip or stop a schedule when another one starts.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            controller box { outputs 4 }
            zone beds { output 1 }
            zone lawn { output 2 }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 20 min }
            }
            schedule weekend {
              on sat
              start at 06:10
              steps { water lawn for 20 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            controller box { outputs 4; schedules may-overlap }
            zone beds { output 1 }
            zone lawn { output 2 }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 20 min }
            }
            schedule weekend {
              on sat
              start at 06:10
              steps { water lawn for 20 min }
            }
            """,
        KnownLimits = "What comes only after the dates that are looked at is found where both schedules start at times of the clock; an overlap that\n" +
            "only a clock change would make is not looked for there. Where two schedules need one zone at once, `zone-twice` says so and this rule says " +
            "nothing more, unless the controller can\n" +
            "never run two.",
    };

    private const int WorkOfMeeting = 8;

    private readonly LintContext _context;
    private readonly PassesUnderWay?[] _passesOfZone;
    private readonly Dictionary<(int First, int Second, int Controller), Overlap> _overlaps = [];

    public SchedulesOverlap(LintContext context)
    {
        _context = context;
        PassesUnderWay?[] passes =
            [.. context.Site.Controllers.Select(controller => controller.SchedulesMayOverlap == true ? null : PassesOn(controller.Index))];
        _passesOfZone = [.. context.Site.Zones.Select(zone => zone.Controller is { } controller ? passes[controller.Index] : null)];
    }

    public bool Observes(Zone zone) => _passesOfZone[zone.Index] is not null;

    public void Visit(in Run run) => _passesOfZone[run.Zone]!.Visit(run);

    public IEnumerable<Finding> Findings() =>
    [
        .. _overlaps
            .OrderBy(entry => entry.Key)
            .Where(entry => IsNever(entry.Key.Controller) || !_context.ZoneMeetings.Has(entry.Key.First, entry.Key.Second))
            .Select(entry => FindingFor(entry.Value, entry.Key.Controller)),
        .. _context.WholeCycle.Pairs(ClaimKind.OfControllers(_context.Site), SchedulesByController(), IsKnown)
            .Where(meeting => IsNever(meeting.Earlier.What) || !IsOfZones(meeting)).Select(FindingFor),
    ];

    private IEnumerable<ImmutableArray<int>> SchedulesByController() =>
        _context.SchedulesBy(zone => zone.Controller is { SchedulesMayOverlap: not true } controller ? controller.Index : null);

    private bool IsOfZones(LaterMeeting meeting) => _context.WholeCycle.OfZones.Any(other => other.Pair == meeting.Pair);

    private bool IsKnown(int first, int second) =>
        _context.ZoneMeetings.Has(first, second) || _context.Site.Controllers.Any(controller => _overlaps.ContainsKey((first, second, controller.Index)));

    private PassesUnderWay PassesOn(int controller) => new(_context.Timetable, (earlier, later) => Meet(earlier, later, controller));

    private bool IsNever(int controller) => _context.Site.Controllers[controller].SchedulesMayOverlap == false;

    private void Meet(PassUnderWay earlier, PassUnderWay later, int controller)
    {
        if (earlier.Schedule == later.Schedule) return;
        var pair = ZoneMeetings.PairOf(earlier.Schedule, later.Schedule);
        var key = (pair.First, pair.Second, controller);
        _context.Spend(WorkOfMeeting);
        if (!_overlaps.TryGetValue(key, out var overlap)) _overlaps[key] = overlap = new Overlap();
        if (overlap.OccurrenceCounter.Add(later.First, _context)) (overlap.Earlier, overlap.Later) = (earlier, later);
    }

    private Finding FindingFor(Overlap overlap, int controller)
    {
        var (earlier, later) = (overlap.Earlier!, overlap.Later!);
        var finding = FindingFor(controller, (earlier.Schedule, earlier.Start, earlier.First, earlier.End),
            (later.Schedule, later.Start, later.First, later.End));
        return finding with { Happens = overlap.OccurrenceCounter.Happens(_context) };
    }

    private Finding FindingFor(LaterMeeting meeting)
    {
        var (earlier, later) = (meeting.Earlier, meeting.Later);
        var finding = FindingFor(earlier.What, (earlier.Run.Schedule, earlier.Run.StartNumber, earlier.From, earlier.To),
            (later.Run.Schedule, later.Run.StartNumber, later.From, later.To));
        return finding with
        {
            Severity = IsNever(earlier.What) ? LaterMeeting.Severity : Rule.Severity,
            Happens = meeting.Happens(_context),
            Details = meeting.RestsOn(_context),
        };
    }

    private Finding FindingFor(int index, (int Schedule, int Start, long From, long To) earlier, (int Schedule, int Start, long From, long To) later)
    {
        var controller = _context.Site.Controllers[index];
        var (first, second) = (_context.Site.Schedules[earlier.Schedule], _context.Site.Schedules[later.Schedule]);
        var on = _context.Site.Controllers.Length > 1 ? $" on {controller.Name}" : "";
        var start = new Label(_context.StartOf(earlier.Schedule, earlier.Start),
            $"{first.Name} waters {_context.Time(earlier.From)} to {_context.Time(earlier.To)}");
        return Finding.At(Rule, _context.StartOf(later.Schedule, later.Start), $"schedules {first.Name} and {second.Name} run at the same time{on}",
            $"{second.Name} waters {_context.Time(later.From)} to {_context.Time(later.To)}") with
        {
            Severity = IsNever(index) ? Severity.Error : Rule.Severity,
            Others = controller.WrittenMayOverlap?.Place is { } origin && IsNever(index)
                ? [start, new Label(origin, "runs one schedule at a time")]
                : [start],
            Help = IsNever(index)
                ? "Start one after the other, or put both into one schedule."
                : "Start one after the other, or write `schedules may-overlap` in the controller.",
        };
    }

    private sealed class Overlap
    {
        public OccurrenceCounter OccurrenceCounter { get; } = new();

        public PassUnderWay? Earlier { get; set; }

        public PassUnderWay? Later { get; set; }
    }
}
