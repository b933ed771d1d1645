using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Water;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Water;

/// <summary>Zones that together draw more than their supply gives.</summary>
internal sealed class FlowOverSupply : IRule, IDemandObserver, IRunObserver
{
    /// <summary>How long a change-over may overlap before both zones count, in seconds: a valve has closed by then (common practice).</summary>
    private const long Borne = 5;

    public static Rule Rule { get; } = new("flow-over-supply", Severity.Error, "more water needed at once than the supply gives")
    {
        Category = RuleCategory.Water,
        CanBeAccepted = true,
        Finds = """
            Adds up the flow of all zones that are open together on a supply, also those of supplies that it feeds, and compares the sum with its `flow`.
            """,
        Matters = "When too much is open the pressure falls: sprays no longer reach each other, pop-ups do not rise, and dry rings show where nobody looks " +
            "for a mistake in the schedule.",
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply tap { flow 25 L/min }
            zone lawn  { output 1; flow 16 L/min }
            zone beds  { output 2; flow 10 L/min }
            schedule morning {
              every day
              start at 06:00
              steps { water lawn + beds for 10 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply tap { flow 25 L/min }
            zone lawn  { output 1; flow 16 L/min }
            zone beds  { output 2; flow 10 L/min }
            schedule morning {
              every day
              start at 06:00
              steps { water lawn, beds for 10 min }
            }
            """,
        FixSafety = "Writes commas in place of the pluses of a step, or a later start. Unsafe: the watering takes longer or comes later. A later start is " +
            "tried against all rules before it is proposed.",
        KnownLimits = "What refills a tank is not added to the flow of the supply that feeds it. A change-over `overlap` of up to 5 s does not count: while " +
            "one valve closes and the next\n" +
            "opens, the two together give about what one gives. Whoever draws from the same main without a zone, a kitchen for instance, is not seen: " +
            "write the flow that is left for the garden.",
        Sources = "Common practice: the sum of the flows on a main stays within what it gives. A bucket test finds that: 10 L in 24 s is 25 L/min.",
    };

    private readonly LintContext _context;
    private readonly Overloads _overloads;
    private readonly decimal[] _all;
    private readonly LongOverlaps? _overlaps;

    public FlowOverSupply(LintContext context)
    {
        _context = context;
        _overloads = new Overloads(context);
        _all = Demand.OfAllZones(context.Site);
        if (context.Site.Supplies.Any(supply => supply.Change is { IsOverlap: true } change && change.Length.WholeSeconds() > Borne))
            _overlaps = new LongOverlaps(this);
    }

    public bool Observes(Supply supply) => _overlaps is null && IsLimited(supply);

    public bool Observes(Zone zone) => _overlaps?.Demand.Observes(zone) == true;

    public void Visit(in Run run) => _overlaps!.Visit(run);

    public void Visit(in DemandInterval interval)
    {
        if (IsOver(interval)) Add(interval);
    }

    public IEnumerable<Finding> Findings()
    {
        _overlaps?.Demand.Finish();
        return _overloads.All.Select(FindingFor);
    }

    private bool IsLimited(Supply supply) => supply.Flow is { } flow && _all[supply.Index] > flow.InBase + Flows.Tolerance;

    private static bool IsOver(in DemandInterval interval) => interval.Flow > interval.Supply.Flow!.Value.InBase + Flows.Tolerance;

    private void Add(in DemandInterval interval) => _overloads.Add(
        interval.Supply.Index, interval.Supply.Flow!.Value.InBase + Flows.Tolerance, interval.Contributions, interval.From, interval.To);

    public IEnumerable<Gap> NotChecked() => _context.Site.Supplies.IsEmpty
        ? [new Gap(Concern.Flow, "flow", [], "supply")]
        : _context.Site.Supplies.SelectMany(supply => supply.Flow is null
            ? [new Gap(Concern.Flow, "flow", [Thing.Of(supply)], "flow")]
            : FlowGaps.Of(_context, supply, Concern.Flow, "flow"));

    private Finding FindingFor(Overload overload)
    {
        var supply = _context.Site.Supplies[overload.Owner];
        var finding = ExcessFlow.FindingFor(Rule, _context, overload, $"supply {supply.Name}", "gives", supply.Flow!.Value);
        if (_overlaps?.At(overload) is { } change)
        {
            var both = $"both are open for {Phrases.Length(change.Length.WholeSeconds())}";
            var changing = _context.Site.Supplies.First(other => other.Change == change);
            return finding with
            {
                Others = changing.Index == supply.Index ? [.. finding.Others, new Label(change.Origin, both)] : finding.Others,
                Details = $"{finding.Details} Because of the change-over of supply {changing.Name} {both}.",
                Help = $"Write `change-over overlap {Borne} s` or less in supply {changing.Name}, or a `change-over gap`.",
            };
        }

        return overload.Places.Length == 1 && overload.Contributions.Length == 1
            ? finding with { Help = "Correct the flow of the zone or of the supply, or split the zone." }
            : OverloadWords.WithHelp(finding, _context, overload, _overloads, trial => new FlowOverSupply(trial));
    }

    /// <summary>What supplies are asked for where a change-over that overlaps for long counts as watering from both.</summary>
    private sealed class LongOverlaps : IDemandObserver
    {
        private readonly FlowOverSupply _rule;
        private readonly (long From, long To)[] _tails;
        private readonly Dictionary<(int Supply, long From), ChangeOver> _changes = [];

        public LongOverlaps(FlowOverSupply rule)
        {
            _rule = rule;
            _tails = new (long, long)[rule._context.Site.Zones.Length];
            Demand = new Demand(rule._context.Site, [this], rule._context.Spend);
        }

        public Demand Demand { get; }

        public bool Observes(Supply supply) => _rule.IsLimited(supply);

        /// <summary>The change-over because of which too much is drawn when it is most; null where it is not because of one.</summary>
        public ChangeOver? At(Overload overload) => _changes.GetValueOrDefault((overload.Owner, overload.WorstAt));

        public void Visit(in Run run)
        {
            var isLong = run.Overlap > Borne;
            Demand.Visit(isLong ? run with { End = run.End + run.Overlap } : run);
            if (isLong) _tails[run.Zone] = (run.End, run.End + run.Overlap);
        }

        public void Visit(in DemandInterval interval)
        {
            if (!IsOver(interval)) return;
            _rule.Add(interval);
            if (ChangeOf(interval) is { } change) _changes[(interval.Supply.Index, interval.From)] = change;
        }

        private ChangeOver? ChangeOf(in DemandInterval interval)
        {
            var (from, zones) = (interval.From, _rule._context.Site.Zones);
            var closing = interval.Contributions.FirstOrDefault(part => _tails[part.Zone].From <= from && from < _tails[part.Zone].To, NoZone).Zone;
            return closing < 0 ? null : interval.Contributions.Where(part => part.Zone != closing)
                .Select(part => zones[part.Zone].Supply!.ChangeAfter(zones[closing].Supply!)).FirstOrDefault(change => change is { IsOverlap: true });
        }

        private static readonly Contribution NoZone = new(default, Zone: -1, Device: -1, Amount: 0);
    }
}
