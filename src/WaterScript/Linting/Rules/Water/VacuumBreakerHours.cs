using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables.Switchings;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Water;

/// <summary>A zone whose atmospheric vacuum breaker is under pressure for too long.</summary>
internal sealed class VacuumBreakerHours : IRule, IOpeningObserver
{
    private const long Window = 24 * 3600;
    private const long Most = 12 * 3600;

    public static Rule Rule { get; } = new("vacuum-breaker-hours", Severity.Warning, "a vacuum breaker under pressure for too long")
    {
        Category = RuleCategory.Water,
        CanBeAccepted = true,
        Finds = """
            A zone of a supply with `backflow atmospheric` is open for more than 12 h within 24 h. Each opening that makes it more is one time.
            """,
        Matters = "The disc of an atmospheric vacuum breaker sticks when it is pressed against its seat for long. Then it lets water from the garden back " +
            "into the drinking water.",
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply tap { flow 20 L/min; backflow atmospheric }
            zone hedge { output 1; flow 5 L/min; method drip }
            schedule night {
              on mon
              start at 18:00
              steps { water hedge for 13 h }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply tap { flow 20 L/min; backflow atmospheric }
            zone hedge { output 1; flow 5 L/min; method drip }
            schedule night {
              on mon
              start at 18:00
              steps { water hedge for 11 h }
            }
            """,
        KnownLimits = "Each zone is taken to have a breaker of its own behind its valve. Drinking water is for licensed people: local codes govern.",
        Sources = "An atmospheric vacuum breaker must not be under pressure for more than 12 h in 24 h: 30 Texas Administrative Code 344.50.",
    };

    private readonly LintContext _context;
    private readonly ZoneHours?[] _zones;

    public VacuumBreakerHours(LintContext context)
    {
        _context = context;
        _zones = [.. context.Site.Zones.Select(zone => zone.Supply is { HasAtmosphericBackflow: true } ? new ZoneHours(zone) : null)];
    }

    public bool ObservesAny => _zones.Any(zone => zone is not null);

    public void Visit(in Opening opening)
    {
        if (opening.Zone >= 0) _zones[opening.Zone]?.Add(opening, _context);
    }

    public IEnumerable<Finding> Findings() => _zones.OfType<ZoneHours>().Where(zone => zone.TooLong.Happened).Select(FindingFor);

    private Finding FindingFor(ZoneHours hours)
    {
        var finding = Finding.At(Rule, hours.Zone.Origin,
            $"zone {hours.Zone.Name} is open for {Phrases.Length((long)hours.TooLong.Worst)} in 24 h, its limit is 12 h") with
        {
            Others = [.. _context.Steps.Of(hours.Origin).Labels("this opens it"),
                new Label(hours.Zone.Supply!.Backflow!.Value.Place, "behind an atmospheric vacuum breaker")],
        };
        return _context.Happening(finding, hours.TooLong) with { Help = "Water for 12 h at most in 24 h, or have another kind of backflow protection put in." };
    }

    /// <summary>The hours of a zone.</summary>
    private sealed class ZoneHours(Zone zone)
    {
        private readonly Queue<(long From, long To)> _openings = new();

        public Zone Zone { get; } = zone;

        /// <summary>When it is open for too long; the worst is the longest, in seconds.</summary>
        public OccurrenceCounter TooLong { get; } = new();

        public StepOrigin Origin { get; private set; }

        /// <summary>The fullest span of 24 h ends where an opening does, or lies within one.</summary>
        public void Add(in Opening opening, LintContext context)
        {
            var from = opening.To - Window;
            _openings.Enqueue((opening.From, opening.To));
            while (_openings.Peek().To <= from) _openings.Dequeue();
            var open = _openings.Sum(each => each.To - Math.Max(each.From, from));
            if (open <= Most) return;
            if (TooLong.Add(opening.From, context)) Origin = context.Origins.Of(opening.Number);
            TooLong.Reach(open);
        }
    }
}
