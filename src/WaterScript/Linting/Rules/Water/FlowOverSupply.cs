using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Water;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Water;

/// <summary>Zones that together draw more than their supply gives.</summary>
internal sealed class FlowOverSupply(LintContext context) : IRule, IDemandObserver
{
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
        KnownLimits = "What refills a tank is not added to the flow of the supply that feeds it. A change-over `overlap` does not count: while one valve " +
            "closes and the next\n" +
            "opens, the two together give about what one gives. Whoever draws from the same main without a zone, a kitchen for instance, is not seen: " +
            "write the flow that is left for the garden.",
        Sources = "Common practice: the sum of the flows on a main stays within what it gives. A bucket test finds that: 10 L in 24 s is 25 L/min.",
    };

    private readonly Overloads _overloads = new(context);
    private readonly decimal[] _all = Demand.OfAllZones(context.Site);

    public bool Observes(Supply supply) => supply.Flow is { } flow && _all[supply.Index] > flow.InBase + Flows.Tolerance;

    public void Visit(in DemandInterval interval)
    {
        var most = interval.Supply.Flow!.Value.InBase + Flows.Tolerance;
        if (interval.Flow > most) _overloads.Add(interval.Supply.Index, most, interval.Contributions, interval.From, interval.To);
    }

    public IEnumerable<Finding> Findings() => _overloads.All.Select(FindingFor);

    public IEnumerable<Gap> NotChecked() => context.Site.Supplies.IsEmpty
        ? [new Gap(Concern.Flow, "flow", [], "supply")]
        : context.Site.Supplies.SelectMany(supply => supply.Flow is null
            ? [new Gap(Concern.Flow, "flow", [Thing.Of(supply)], "flow")]
            : FlowGaps.Of(context.Site, supply, Concern.Flow, "flow"));

    private Finding FindingFor(Overload overload)
    {
        var supply = context.Site.Supplies[overload.Owner];
        var flow = supply.Flow!.Value;
        var limit = new Label(flow.Place, $"gives {Flows.Say(flow.InBase, flow)}");
        var needed = Flows.Say(overload.Worst, flow);
        var heading = $"{OverloadWords.Needing(context, overload)} {needed} at once, supply {supply.Name} gives {Phrases.Bare(Flows.Say(flow.InBase, flow))}";
        var finding = OverloadWords.FindingFor(Rule, context, overload, heading, $"needs {OverloadWords.UpTo(overload, needed)}", limit);
        finding = finding with
        {
            Details = $"{finding.Details}{OverloadWords.WorstSum(context, overload, amount => Flows.Say(amount, flow))}: " +
                $"{Flows.Say(overload.Worst - flow.InBase, flow)} too much.",
        };
        return overload.Places.Length == 1 && overload.Contributions.Length == 1
            ? finding with { Help = "Correct the flow of the zone or of the supply, or split the zone." }
            : OverloadWords.WithHelp(finding, context, overload, _overloads, trial => new FlowOverSupply(trial));
    }
}
