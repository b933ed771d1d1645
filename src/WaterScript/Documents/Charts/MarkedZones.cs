using System.Collections.Immutable;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Documents.Charts;

/// <summary>Says over which lane a finding is marked.</summary>
internal static class MarkedZones
{
    /// <summary>
    /// The marks of a night, each with its zone. What is held is drawn hollow with its reason: a finding about that is marked once a night, at the first.
    /// </summary>
    public static IEnumerable<ChartMark> Of(IEnumerable<ChartMark> marks, ImmutableArray<ChartRun> runs, IReadOnlyList<ChartHeld> held, Site site)
    {
        var named = new HashSet<ChartFinding>();
        foreach (var mark in marks)
        {
            if (held.FirstOrDefault(each => each.From == mark.At && Array.Exists(PlacesOf(mark), place => IsIn(each.Cause, place))) is not { } due)
                yield return mark with { Zone = ZoneOf(mark, runs, site) };
            else if (named.Add(mark.Finding)) yield return mark with { Zone = due.Zone.Index };
        }
    }

    private static Location[] PlacesOf(ChartMark mark) =>
        [mark.Finding.Finding.Primary.Location, .. mark.Finding.Finding.Others.Select(label => label.Location)];

    /// <summary>
    /// The zone that is watered as a finding happens; of several, one whose step or zone it names. Where none is, the one that it names; -1 for none.
    /// </summary>
    private static int ZoneOf(ChartMark mark, ImmutableArray<ChartRun> runs, Site site)
    {
        var places = PlacesOf(mark);
        var on = runs.Where(run => run.Run.Start <= mark.At && mark.At < run.Run.End).DefaultIfEmpty(runs.FirstOrDefault(run => run.Run.End == mark.At))
            .OfType<ChartRun>().OrderByDescending(run => run.Run.Start == mark.At).ThenBy(run => run.Zone.Index).ToList();
        return (on.Find(run => Array.Exists(places, place => IsIn(run.Place, place) || IsIn(run.Zone.Origin, place))) ?? on.FirstOrDefault())?.Zone.Index
            ?? site.Zones.FirstOrDefault(zone => Array.Exists(places, place => IsIn(zone.Origin, place)) && runs.Any(run => run.Zone == zone))?.Index ?? -1;
    }

    private static bool IsIn(Location inner, Location outer) =>
        ReferenceEquals(inner.Source, outer.Source) && inner.Span.Start >= outer.Span.Start && inner.Span.End <= outer.Span.End;
}
