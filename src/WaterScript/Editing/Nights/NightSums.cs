using WaterScript.Model;

namespace WaterScript.Editing.Nights;

/// <summary>Sums over runs.</summary>
internal static class NightSums
{
    /// <summary>The water of some runs, in litres; null where the flow of one of their zones is not known.</summary>
    public static decimal? Litres(IEnumerable<NightRun> runs, Site site)
    {
        ArgumentNullException.ThrowIfNull(runs);
        ArgumentNullException.ThrowIfNull(site);
        decimal? litres = 0;
        foreach (var run in runs) litres += site.Zones[run.Run.Zone].LitresPerMinute * run.Run.Seconds / 60;
        return litres;
    }
}
