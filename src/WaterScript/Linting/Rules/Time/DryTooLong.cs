using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Water;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Time;

/// <summary>A zone that stays dry longer than it may.</summary>
internal sealed class DryTooLong : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("dry-too-long", Severity.Warning, "a zone that stays dry longer than it may")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = "A zone stays without water for longer than its `never-dry-for`: between two waterings, before the first or after the last. Only days in a " +
            "season of a schedule that names it count, whatever scale and trim leave of it, and none of a closed season: a\n" +
            "bed that rests in winter is not dry, and a day that does not count begins the time anew. A schedule that starts after others is in season " +
            "when one of these is. Each time that is too long counts once, when it becomes so.",
        Matters = """
            Seedlings, pots and cuttings do not come back from drying out once.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1; never-dry-for 26 h }
            schedule morning {
              every day
              start at 06:00
              except sun
              steps { water beds for 10 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1; never-dry-for 26 h }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 10 min }
            }
            """,
        KnownLimits = """
            Rain is not counted. A zone that no schedule with a calendar waters is for `manual-only`.
            """,
    };

    private readonly LintContext _context;
    private readonly DrySpells _spells;
    private readonly Found?[] _found;

    public DryTooLong(LintContext context)
    {
        _context = context;
        _found = new Found?[context.Site.Zones.Length];
        _spells = new DrySpells(context);
    }

    public bool Observes(Zone zone) => zone.NeverDryFor is not null;

    public void Visit(in Run run)
    {
        var zone = _context.Site.Zones[run.Zone];
        foreach (var (from, until) in _spells.EndedBy(run, MostOf(zone))) Add(zone, from, until);
    }

    public IEnumerable<Finding> Findings()
    {
        foreach (var zone in _context.Site.Zones.Where(Observes))
        {
            foreach (var (from, until) in _spells.AtTheEnd(zone, MostOf(zone))) Add(zone, from, until);
        }

        return _context.Site.Zones.Where(zone => _found[zone.Index] is not null).Select(zone => FindingFor(zone, _found[zone.Index]!));
    }

    private static long MostOf(Zone zone) => zone.NeverDryFor!.Value.WholeSeconds();

    private void Add(Zone zone, long from, long until)
    {
        var found = _found[zone.Index] ??= new Found();
        found.OccurrenceCounter.Add(from + MostOf(zone), _context);
        if (found.OccurrenceCounter.Reach(until - from)) found.From = from;
    }

    private Finding FindingFor(Zone zone, Found found) =>
        Finding.At(Rule, zone.NeverDryFor!.Value.Place, $"zone {zone.Name} stays dry for {Phrases.Length((long)found.OccurrenceCounter.Worst)}, " +
            $"its limit is {Phrases.Length(zone.NeverDryFor!.Value.WholeSeconds())}",
            "the limit") with
        {
            Others = [.. CausesOf(zone, found).Take(MostCauses).Select(cause => new Label(cause.Origin, WordsOf(cause)))],
            Happens = found.OccurrenceCounter.Happens(_context),
            Details = $"Longest without water: from {_context.Moment(found.From)}.",
            Excess = found.OccurrenceCounter.Worst - zone.NeverDryFor!.Value.WholeSeconds(),
            Help = "Water it more often, or change its `never-dry-for`.",
        };

    private const int MostCauses = 2;

    /// <summary>What takes watering away in the longest stretch.</summary>
    private IEnumerable<SkippedWatering> CausesOf(Zone zone, Found found) => _context.Skipped.Water.Where(water => water.Zone == zone
        && water.Last >= found.From && water.First < found.From + (long)found.OccurrenceCounter.Worst);

    private static string WordsOf(SkippedWatering water) => water switch
    {
        { Follower: { } follower } => $"keeps it dry too: {follower.Name} does not start then",
        { By: SkipCause.Hold } => "keeps it dry",
        _ => "takes watering away then",
    };

    private sealed class Found
    {
        /// <summary>When it has been dry for too long; the worst is the longest, in seconds.</summary>
        public OccurrenceCounter OccurrenceCounter { get; } = new();

        /// <summary>Where the longest begins.</summary>
        public long From { get; set; }
    }
}
