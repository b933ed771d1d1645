using System.Collections.Immutable;
using NodaTime;
using WaterScript.Documents.Charts;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff.Pages;

/// <summary>A watering of a night in two versions.</summary>
/// <param name="Old">When it was, in seconds since noon; null for a new one.</param>
/// <param name="New">When it is; null for one that is gone.</param>
internal sealed record ChangedRun((long From, long Until)? Old, (long From, long Until)? New)
{
    /// <summary>Whether it is as it was.</summary>
    public bool IsSame => Old == New;

    /// <summary>Its first second.</summary>
    public long From => (New ?? Old)!.Value.From;

    /// <summary>The same so many seconds later.</summary>
    public ChangedRun Later(long by) => new(
        Old is { } old ? (old.From + by, old.Until + by) : null, New is { } @new ? (@new.From + by, @new.Until + by) : null);
}

/// <summary>What a zone gets in a night before and after.</summary>
/// <param name="Name">What people call it.</param>
/// <param name="Runs">By time.</param>
/// <param name="Old">Water before, in litres; null where no flow is known.</param>
/// <param name="New">Water after.</param>
internal sealed record ChangedLane(string Name, ImmutableArray<ChangedRun> Runs, decimal? Old, decimal? New);

/// <summary>A night from noon to noon in two versions.</summary>
/// <param name="Date">The date at whose noon it begins.</param>
/// <param name="Length">From noon to noon, in seconds.</param>
/// <param name="Lanes">The zones that are watered in it before or after.</param>
internal sealed record ChangedNight(LocalDate Date, long Length, ImmutableArray<ChangedLane> Lanes)
{
    /// <summary>What moves by more seconds than this is not the same watering.</summary>
    private const long FarthestMoved = 21_600;

    /// <summary>The nights of a week in two versions.</summary>
    /// <param name="old">The old one.</param>
    /// <param name="new">The new one, over the same days.</param>
    /// <param name="nameOf">What a zone of the old version is called in the new one.</param>
    public static ImmutableArray<ChangedNight> Of(Chart old, Chart @new, Func<string, string> nameOf) =>
        [.. old.Days.Zip(@new.Days).Select(days => Of(days.First, days.Second, old.Site, @new.Site, nameOf))];

    /// <summary>How many waterings are new, gone, and at another time or of another length, in words.</summary>
    public string Words => Say(Lanes.SelectMany(lane => lane.Runs));

    /// <summary>Whether any watering is not as it was.</summary>
    public bool IsChanged => Lanes.Any(lane => lane.Runs.Any(run => !run.IsSame));

    /// <summary>Water after less water before, in litres, of the lanes whose flow is known.</summary>
    public decimal Difference => Lanes.Sum(lane => (lane.New - lane.Old) ?? 0);

    /// <summary>The same of any waterings.</summary>
    public static string Say(IEnumerable<ChangedRun> all)
    {
        var runs = all.ToList();
        var (added, gone) = (runs.Count(run => run.Old is null), runs.Count(run => run.New is null));
        var moved = runs.Count(run => run is { Old: not null, New: not null, IsSame: false });
        var parts = new[] { (added, "new"), (gone, "gone"), (moved, "moved or resized") }.Where(part => part.Item1 > 0)
            .Select(part => $"{Phrases.Count(part.Item1, "run")} {part.Item2}").ToList();
        return parts.Count > 0 ? string.Join(", ", parts) : runs.Count > 0 ? "as it was" : "no water";
    }

    /// <summary>A night in two versions.</summary>
    public static ChangedNight Of(ChartDay old, ChartDay @new, Site was, Site now, Func<string, string> nameOf)
    {
        var before = old.Runs.ToLookup(run => nameOf(run.Zone.Name), StringComparer.Ordinal);
        var after = @new.Runs.ToLookup(run => run.Zone.Name, StringComparer.Ordinal);
        var zones = now.Zones.Select(zone => (zone.Name, zone.DisplayName)).Concat(was.Zones.Select(zone => (Name: nameOf(zone.Name), zone.DisplayName)))
            .DistinctBy(zone => zone.Name).Where(zone => before.Contains(zone.Name) || after.Contains(zone.Name));
        return new ChangedNight(@new.Date, @new.Until - @new.From, [.. zones.Select(zone => new ChangedLane(zone.DisplayName,
            [.. Match([.. before[zone.Name].Select(run => TimesOf(run, old.From))], [.. after[zone.Name].Select(run => TimesOf(run, @new.From))])],
            LitresOf(before[zone.Name]), LitresOf(after[zone.Name])))]);
    }

    private static (long From, long Until) TimesOf(ChartRun run, long noon) => (run.Run.Start - noon, run.Run.End - noon);

    private static decimal? LitresOf(IEnumerable<ChartRun> runs) => runs.Any(run => run.Litres is null) ? null : runs.Sum(run => run.Litres ?? 0);

    /// <summary>
    /// What is in both is the same watering. Of the rest those are the same, moved or resized, that lie nearest to one another in their order; what has none
    /// within some hours is gone or new.
    /// </summary>
    private static IEnumerable<ChangedRun> Match(List<(long From, long Until)> old, List<(long From, long Until)> @new)
    {
        var all = new List<ChangedRun>();
        foreach (var same in old.Where(@new.Contains).ToList())
        {
            if (!@new.Remove(same)) continue;
            old.Remove(same);
            all.Add(new ChangedRun(same, same));
        }

        all.AddRange(Nearest([.. old.Order()], [.. @new.Order()]));
        return all.OrderBy(run => run.From);
    }

    /// <summary>The pairs, in order, that cost least: a pair costs as many seconds as it is moved, one without another half of the farthest.</summary>
    private static IEnumerable<ChangedRun> Nearest(List<(long From, long Until)> old, List<(long From, long Until)> @new)
    {
        var costs = new long[old.Count + 1, @new.Count + 1];
        for (var i = old.Count; i >= 0; i--)
        {
            for (var k = @new.Count; k >= 0; k--)
            {
                if (i == old.Count || k == @new.Count) costs[i, k] = (old.Count - i + @new.Count - k) * FarthestMoved / 2;
                else costs[i, k] = Math.Min(PairAt(i, k), Math.Min(costs[i + 1, k], costs[i, k + 1]) + (FarthestMoved / 2));
            }
        }

        long PairAt(int i, int k) => costs[i + 1, k + 1] + Math.Abs(old[i].From - @new[k].From);
        for (int i = 0, k = 0; i < old.Count || k < @new.Count;)
        {
            if (i < old.Count && k < @new.Count && costs[i, k] == PairAt(i, k)) yield return new ChangedRun(old[i++], @new[k++]);
            else if (k == @new.Count || (i < old.Count && costs[i + 1, k] <= costs[i, k + 1])) yield return new ChangedRun(old[i++], null);
            else yield return new ChangedRun(null, @new[k++]);
        }
    }
}
