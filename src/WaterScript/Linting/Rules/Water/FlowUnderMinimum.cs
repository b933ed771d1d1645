using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Water;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Water;

/// <summary>Zones that together take less than the supply's pump must be asked for.</summary>
internal sealed class FlowUnderMinimum(LintContext context) : IRule, IDemandObserver
{
    /// <summary>What a pump bears, in seconds: while valves change over, little flows for a moment (common practice).</summary>
    private const long Borne = 10;

    public static Rule Rule { get; } = new("flow-under-minimum", Severity.Warning, "less water drawn than the pump must give")
    {
        Category = RuleCategory.Water,
        CanBeAccepted = true,
        Finds = """
            Zones are open, and for more than 10 s together they take less than the `minimum-flow` of their supply.
            """,
        Matters = """
            A pump that gives almost nothing churns the same water until it is hot, or switches on and off every few seconds. Both wear it out.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply well { flow 30 L/min; minimum-flow 8 L/min }
            zone lawn { output 1; flow 20 L/min }
            zone pots { output 2; flow 2 L/min; method drip }
            schedule morning {
              every day
              start at 06:00
              steps {
                water lawn for 10 min
                water pots for 20 min
              }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply well { flow 30 L/min; minimum-flow 8 L/min; pressure-tank 24 L from 2 bar to 3.5 bar }
            zone lawn { output 1; flow 20 L/min }
            zone pots { output 2; flow 2 L/min; method drip }
            schedule morning {
              every day
              start at 06:00
              steps {
                water lawn for 10 min
                water pots for 20 min
              }
            }
            """,
        KnownLimits = "A supply with a `bypass` or a `pressure-tank` with its pressures is not looked at: they take what the zones do not. How large a " +
            "pressure tank must be " +
            "is not " +
            "calculated. The zones that are named to water together are the fewest whose flows come to the minimum within what the supply gives; whether it " +
            "suits them is not weighed.",
        Sources = "Common practice.",
    };

    private readonly Overloads _overloads = new(context);
    private readonly UnderWay?[] _underWay = new UnderWay?[context.Site.Supplies.Length];

    public bool Observes(Supply supply) => supply is { MinimumFlow: not null, TakesUp: false };

    public void Visit(in DemandInterval interval)
    {
        var supply = interval.Supply;
        if (!interval.IsWhole || interval.Flow >= supply.MinimumFlow!.Value.InBase - Flows.Tolerance)
        {
            _underWay[supply.Index] = null;
            return;
        }

        if (_underWay[supply.Index] is not { } before || before.To != interval.From) _underWay[supply.Index] = before = new UnderWay(interval.From);
        before.To = interval.To;
        if (interval.To - before.From > Borne)
            _overloads.Add(supply.Index, limit: -1, interval.Contributions, before.IsReported ? interval.From : before.From, interval.To);
        before.IsReported |= interval.To - before.From > Borne;
    }

    public IEnumerable<Finding> Findings() => _overloads.All.Select(FindingFor);

    public IEnumerable<Gap> NotChecked() => context.Site.Supplies
        .Where(Observes)
        .SelectMany(supply => FlowGaps.Of(context.Site, supply, Concern.Flow, "minimum flow"));

    private Finding FindingFor(Overload overload)
    {
        var supply = context.Site.Supplies[overload.Owner];
        var minimum = supply.MinimumFlow!.Value;
        var limit = new Label(minimum.Place, "the least flow");
        var finding = OverloadWords.FindingFor(
            Rule, context, overload,
            $"zones draw {Flows.Say(overload.Worst, minimum)}, supply {supply.Name} must give {Phrases.Bare(Flows.Say(minimum.InBase, minimum))}",
            $"draws {(overload.IsSteady ? "" : "at most ")}{Flows.Say(overload.Worst, minimum)}", limit);
        return finding with
        {
            Details = $"{finding.Details}{OverloadWords.Sum(context.Site, overload, amount => Flows.Say(amount, minimum))}, for " +
                $"{Phrases.Length(overload.Longest)}.",
            Help = Help(supply, overload),
        };
    }

    private string Help(Supply supply, Overload overload)
    {
        const string otherwise = $"give the supply {PumpWithoutFlow.Relief} where there is one.";
        if (Together(supply, overload) is not { } zones) return $"Open another zone with it, or {otherwise}";
        if (zones.IsEmpty) return $"None of its other zones, nor several, bring it to the minimum within what it gives: {otherwise}";
        var sum = overload.Worst + zones.Sum(zone => zone.LitresPerMinute!.Value);
        return $"Water it together with {Phrases.Names([.. zones.Select(zone => zone.Name)])}, which makes " +
            $"{Flows.Say(sum, supply.MinimumFlow!.Value)}, or {otherwise}";
    }

    /// <summary>The fewest other zones with which the minimum is met; null where that cannot be worked out.</summary>
    private ImmutableArray<Zone>? Together(Supply supply, Overload overload)
    {
        if (!overload.IsSteady || Flows.Unknown(context.Site, supply).Any()) return null;
        var others = context.Site.Zones.Where(
            zone => zone.LitresPerMinute > 0 && Demand.Above(zone.Supply).Any(above => above.Index == supply.Index)
            && overload.Contributions.All(contribution => contribution.Zone != zone.Index));
        var most = supply.Flow is { } flow ? flow.InBase - overload.Worst + Flows.Tolerance : decimal.MaxValue;
        return FewestZones.Of(others, supply.MinimumFlow!.Value.InBase - overload.Worst - Flows.Tolerance, most);
    }

    /// <summary>A time under the minimum.</summary>
    private sealed class UnderWay(long from)
    {
        public long From { get; } = from;

        public long To { get; set; }

        public bool IsReported { get; set; }
    }
}
