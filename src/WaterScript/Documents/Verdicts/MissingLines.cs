using WaterScript.Linting.Engine;

namespace WaterScript.Documents.Verdicts;

/// <summary>All that was not checked, by the part of the site to which a statement is to be added: what <c>check --missing</c> lists.</summary>
internal static class MissingLines
{
    private static readonly Thing WholeSite = new("site", "");

    /// <summary>A line for each part: <c>zone herbs: wires (add wire), roots (add plants)</c>.</summary>
    /// <param name="site">The site; of one that could not be read nothing is listed, as nothing was checked.</param>
    /// <param name="isOneOfMany">Whether it is named.</param>
    public static IEnumerable<string> Of(CheckedSite site, bool isOneOfMany = false)
    {
        if (site.Lint is not { Horizon: var horizon } lint || horizon.Until <= horizon.From) yield break;
        var name = isOneOfMany ? $" in {site.Name}" : "";
        if (lint.NotChecked.IsEmpty)
        {
            yield return $"Nothing more to add{name} for any check.";
            yield break;
        }

        yield return $"Not checked{name}:";
        var parts = lint.NotChecked.SelectMany(gap => gap.Of.DefaultIfEmpty(WholeSite), (gap, thing) => (Thing: thing, Gap: gap))
            .GroupBy(part => part.Thing, part => part.Gap)
            .OrderBy(part => RankOf(site, part.Key));
        foreach (var part in parts) yield return $"  {Named(part.Key)}: {string.Join(", ", part.GroupBy(gap => gap.Remedy).Select(WordsOf))}";
    }

    private static string Named(Thing thing) => thing.Name.Length == 0 ? thing.Kind : $"{thing.Kind} {thing.Name}";

    private static string WordsOf(IGrouping<string, Gap> gaps) => $"{string.Join(", ", gaps.Select(gap => gap.What).Distinct())} ({gaps.Key})";

    /// <summary>The site, then what its zones rest on, then the zones, in order of the file.</summary>
    private static (int Kind, int Index) RankOf(CheckedSite site, Thing thing)
    {
        var model = site.Reading.Site!;
        return thing.Kind switch
        {
            "site" => (0, 0),
            "supply" => (1, model.Supplies.First(supply => supply.Name == thing.Name).Index),
            "controller" => (2, model.Controllers.First(controller => controller.Name == thing.Name).Index),
            "zone" => (4, model.Zones.First(zone => zone.Name == thing.Name).Index),
            _ => (3, 0),
        };
    }
}
