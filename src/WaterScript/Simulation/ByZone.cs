using WaterScript.Model;

namespace WaterScript.Simulation;

/// <summary>
/// Things by zone that are asked for at every run or switching. Zones in a row mostly ask for the same, and share one: it is then still in the processor's
/// cache, where one for each zone of a large site would have to be fetched from memory each time.
/// </summary>
internal static class ByZone
{
    /// <summary>One thing for each zone, by its index.</summary>
    /// <param name="site">The site.</param>
    /// <param name="keyOf">What the thing follows from.</param>
    /// <param name="make">Makes the thing.</param>
    public static T[] Of<TKey, T>(Site site, Func<Zone, TKey> keyOf, Func<Zone, T> make)
    {
        var things = new T[site.Zones.Length];
        var last = default(TKey);
        for (var i = 0; i < things.Length; i++)
        {
            var (zone, key) = (site.Zones[i], keyOf(site.Zones[i]));
            things[i] = i > 0 && EqualityComparer<TKey>.Default.Equals(key, last) ? things[i - 1] : make(zone);
            last = key;
        }

        return things;
    }
}
