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
            Zones are open, and for more than 10 s together they take less than the `minimum-flow` of their supply. A `pressure-tank` with its pressures
            excuses that where its pump, which fills it again and again, then starts no more often than its `at most … starts an hour`.
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
        KnownLimits = "A supply with a `bypass` is not looked at: it takes what the zones do not. The air in a pressure tank is taken to be filled to the " +
            "lower pressure.\n" +
            "The zones that are named to water together are the fewest whose flows come to the minimum within what the supply gives; whether it suits them " +
            "is not weighed.",
        Sources = "Common practice. Water of a pressure tank: V · (1 − p_in / p_out), absolute (Boyle). A pump of flow Q that fills it while the zones " +
            "take q starts 60 · q · (Q − q) / (V · Q) times an hour.",
    };

    private readonly Overloads _overloads = new(context);
    private readonly bool[] _isUnjudged = new bool[context.Site.Supplies.Length];
    private readonly UnderWay?[] _underWay = new UnderWay?[context.Site.Supplies.Length];

    public bool Observes(Supply supply) => supply is { MinimumFlow: not null, HasBypass: false };

    public void Visit(in DemandInterval interval)
    {
        var supply = interval.Supply;
        if (!interval.IsWhole || interval.Flow >= supply.MinimumFlow!.Value.InBase - Flows.Tolerance || IsExcused(supply, interval.Flow))
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

    public IEnumerable<Gap> NotChecked() =>
    [
        .. context.Site.Supplies.Where(Observes).SelectMany(supply => FlowGaps.Of(context, supply, Concern.Flow, "minimum flow")),
        .. context.Site.Supplies.Where(supply => _isUnjudged[supply.Index]).Select(
            supply => supply.Flow is null
                ? new Gap(Concern.PumpStarts, "pressure tank", [Thing.Of(supply)], "flow")
                : new Gap(Concern.PumpStarts, "pressure tank", [Thing.Of(supply)], "at most … starts an hour to its pump")),
    ];

    /// <summary>Whether a pressure tank takes what the zones do not, as far as that is known; what is not known is taken note of.</summary>
    private bool IsExcused(Supply supply, decimal flow)
    {
        if (supply.PressureTank?.Value.UsableLitres is null || flow <= 0) return supply.TakesUp;
        if (TankStarts(supply, flow) is not { } starts || LimitOf(supply) is not { } limit)
        {
            _isUnjudged[supply.Index] = true;
            return true;
        }

        return starts <= limit.Value + Flows.Tolerance;
    }

    /// <summary>How often an hour a pump fills the pressure tank: 60 · q · (Q − q) / (V · Q); null where its flow is not known.</summary>
    private static decimal? TankStarts(Supply supply, decimal flow) => supply is { Flow: { } most, PressureTank.Value.UsableLitres: { } litres }
        ? 60 * flow * Math.Max(0, most.InBase - flow) / (litres * most.InBase)
        : null;

    /// <summary>The most starts of the pumps of a supply.</summary>
    private Placed<int>? LimitOf(Supply supply) => context.Site.Devices
        .Where(device => device.Kind == DeviceKind.Pump && device.Zones.Any(zone => Demand.Above(zone.Supply).Any(above => above.Index == supply.Index)))
        .Select(device => device.StartsAnHour).OfType<Placed<int>>().OrderBy(limit => limit.Value).Select(limit => (Placed<int>?)limit).FirstOrDefault();

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
                $"{Phrases.Length(overload.Longest)}.{TankSum(supply, overload.Worst)}",
            Help = Help(supply, overload),
            Excess = minimum.InBase - overload.Worst,
        };
    }

    /// <summary>How often the pump fills the pressure tank, where there is one that is too small.</summary>
    private string TankSum(Supply supply, decimal flow) =>
        supply.PressureTank?.Value is { UsableLitres: { } litres, CutIn: { } low, CutOut: { } high } && TankStarts(supply, flow) is { } starts
            ? $"\nThe pressure tank gives {Phrases.Number(litres, 2)} L between {low} and {high}: its pump starts {Phrases.Number(starts, 1)} times an hour, " +
                $"its limit is {LimitOf(supply)!.Value.Value}."
            : "";

    private string Help(Supply supply, Overload overload)
    {
        if (supply.TakesUp) return $"Use a larger pressure tank, or one with a lower cut-in, or give the supply a `bypass`.";
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
        if (!overload.IsSteady || FlowGaps.Zones(context, supply).Any()) return null;
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
