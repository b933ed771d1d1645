using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Water;

/// <summary>What rests on the flow of all zones of a supply, where some do not say theirs.</summary>
internal static class FlowGaps
{
    /// <summary>The zones that do not.</summary>
    public static IEnumerable<Gap> Of(Site site, Supply supply, Concern concern, string what) =>
        Gap.Each(concern, what, Flows.Unknown(site, supply).Select(zone => (Thing.Of(zone), (string?)"flow")));
}
