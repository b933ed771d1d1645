using System.Collections.Immutable;
using WaterScript.Model;

namespace WaterScript.Linting.Fixes;

/// <summary>The fewest zones whose flows come to enough, and not to too much.</summary>
internal static class FewestZones
{
    /// <summary>Sums of flows that are kept at once; where there are more, it is left open which zones they are.</summary>
    private const int MostSums = 4_000;

    /// <summary>
    /// The fewest; of equally few, those that come to the least. None where there are no such zones; null where there are too many sums to try.
    /// </summary>
    /// <param name="zones">Zones with a flow.</param>
    /// <param name="least">What they must come to, in L/min.</param>
    /// <param name="most">What they may come to.</param>
    public static ImmutableArray<Zone>? Of(IEnumerable<Zone> zones, decimal least, decimal most)
    {
        var sums = new Dictionary<decimal, Taken> { [0] = new Taken(null, null, 0) };
        foreach (var zone in zones)
        {
            foreach (var (sum, taken) in sums.ToArray())
            {
                var next = sum + zone.LitresPerMinute!.Value;
                if (sum >= least || next > most || (sums.TryGetValue(next, out var known) && known.Count <= taken.Count + 1)) continue;
                sums[next] = new Taken(zone, taken, taken.Count + 1);
            }

            if (sums.Count > MostSums) return null;
        }

        var best = sums.Where(entry => entry.Key >= least).OrderBy(entry => entry.Value.Count).ThenBy(entry => entry.Key).Select(entry => entry.Value)
            .FirstOrDefault();
        return best is null ? [] : [.. best.Zones().Reverse()];
    }

    /// <summary>Zones that come to a sum.</summary>
    private sealed record Taken(Zone? Last, Taken? Before, int Count)
    {
        public IEnumerable<Zone> Zones()
        {
            for (var taken = this; taken.Last is { } zone; taken = taken.Before!) yield return zone;
        }
    }
}
