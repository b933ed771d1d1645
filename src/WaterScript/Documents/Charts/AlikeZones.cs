using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts;

/// <summary>
/// In a night with many zones those that are watered alike share a lane: the same times by the same steps, as much water, and the same hours forbidden. Such
/// a lane has a number of its own, after those of the zones.
/// </summary>
/// <param name="site">The site.</param>
internal sealed class AlikeZones(Site site)
{
    /// <summary>From so many zones in a night on.</summary>
    public const int Many = 20;

    private readonly List<ImmutableArray<int>> _groups = [];
    private readonly Dictionary<string, int> _numbers = new(StringComparer.Ordinal);

    /// <summary>What lanes are called: the zones, then those that are shared.</summary>
    public IEnumerable<string> Names => Each.Concat(_groups.Select(group =>
        string.Create(CultureInfo.InvariantCulture, $"{NameOf(group[0])} and {group.Length - 1} more, alike")));

    /// <summary>The zones of each lane, in words.</summary>
    public IEnumerable<string> Members => Each.Concat(_groups.Select(group => Phrases.Names(group.Select(NameOf).ToList(), most: int.MaxValue)));

    /// <summary>Where each lane stands among the zones: a shared one where the first of its zones would.</summary>
    public IEnumerable<int> Order => Enumerable.Range(0, site.Zones.Length).Concat(_groups.Select(group => group[0]));

    private IEnumerable<string> Each => site.Zones.Select(zone => NameOf(zone.Index));

    /// <summary>A night in which zones that are alike share a lane.</summary>
    public Night Folded(Night night)
    {
        var (rows, held) = (night.Rows.ToLookup(row => row.Zone), night.Held.ToLookup(row => row.Zone));
        var zones = night.Rows.Concat(night.Held).Select(row => row.Zone).Distinct().Order().ToList();
        if (zones.Count < Many) return night;
        var laneOf = zones.ToDictionary(zone => zone);
        var leaders = zones.ToHashSet();
        var alike = zones.GroupBy(zone => WateringOf(zone, rows[zone], held[zone], night), StringComparer.Ordinal);
        foreach (var group in alike.Where(group => group.Skip(1).Any()))
        {
            ImmutableArray<int> members = [.. group];
            leaders.ExceptWith(members.Skip(1));
            foreach (var member in members) laneOf[member] = NumberOf(members);
        }

        NightRow[] Shared(ImmutableArray<NightRow> all, string each) => [.. all.Where(row => leaders.Contains(row.Zone)).Select(row =>
            laneOf[row.Zone] == row.Zone ? row : row with { Zone = laneOf[row.Zone], Water = row.Water.Length > 0 ? row.Water + each : "" })];
        int LaneOf(int zone) => laneOf.GetValueOrDefault(zone, zone);
        return night with
        {
            Rows = [.. Shared(night.Rows, " each")],
            Held = [.. Shared(night.Held, "")],
            Figures = [.. night.Figures.Where(each => leaders.Contains(each.Zone)).Select(each => each with { Zone = LaneOf(each.Zone) })],
            Forbidden = [.. night.Forbidden.Select(each => each with { Zones = [.. each.Zones.Select(LaneOf).Distinct()] })],
            Findings = [.. night.Findings.Select(each => each with { Zone = LaneOf(each.Zone) }).Distinct()],
        };
    }

    /// <summary>All that a zone has to have in common with another to share its lane.</summary>
    private string WateringOf(int zone, IEnumerable<NightRow> rows, IEnumerable<NightRow> held, Night night)
    {
        static string Say(IEnumerable<NightRow> all) => string.Join(';', all.Select(row => $"{row with { Zone = 0 }}"));
        var forbidden = string.Join(' ', night.Forbidden.Index().Where(each => each.Item.Zones.Contains(zone)).Select(each => each.Index));
        return $"{Say(rows)}|{Say(held)}|{forbidden}|{site.Zones[zone].LitresPerMinute}";
    }

    private int NumberOf(ImmutableArray<int> members)
    {
        var key = string.Join(' ', members);
        if (_numbers.TryGetValue(key, out var number)) return number;
        _groups.Add(members);
        return _numbers[key] = site.Zones.Length + _groups.Count - 1;
    }

    private string NameOf(int zone) => Shapes.Plain(site.Zones[zone].DisplayName);
}
