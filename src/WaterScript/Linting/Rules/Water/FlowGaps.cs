using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation.Water;

namespace WaterScript.Linting.Rules.Water;

/// <summary>What rests on the flow of all zones of a supply, where some do not say theirs.</summary>
internal static class FlowGaps
{
    /// <summary>The zones that do not.</summary>
    public static IEnumerable<Zone> Zones(LintContext context, Supply supply) =>
        context.WithoutFlow.Where(zone => Demand.Above(zone.Supply).Contains(supply));

    /// <summary>What is not checked because of them.</summary>
    public static IEnumerable<Gap> Of(LintContext context, Supply supply, Concern concern, string what) =>
        Gap.Each(concern, what, Zones(context, supply).Select(zone => (Thing.Of(zone), (string?)"flow")));

    /// <summary>The same of zones that give water back to its tank.</summary>
    public static IEnumerable<Gap> OfReturns(LintContext context, Supply supply, Concern concern, string what) => Gap.Each(
        concern, what, context.WithoutFlow.Where(zone => zone.Returns?.Value.Supply.Index == supply.Index).Select(zone => (Thing.Of(zone), (string?)"flow")));
}
