using System.Collections.Immutable;

namespace WaterScript.Answers.Deployed;

/// <summary>What time some lists cover, for each controller that they name.</summary>
/// <param name="Now">The moment that counts as now, in Unix seconds.</param>
/// <param name="Ends">When what is in the device now ends, with what follows it without a hole; null where nothing is in it now.</param>
/// <param name="IsOverSoon">Whether the device is without a list now, though others came or are to come, or within a day.</param>
/// <param name="Holes">Times between lists for which there is none.</param>
/// <param name="Overlaps">Times for which there are two.</param>
internal sealed record ListCover(long Now, long? Ends, bool IsOverSoon, ImmutableArray<ListHole> Holes, ImmutableArray<ListOverlap> Overlaps)
{
    private const long Soon = 86_400;

    /// <summary>What some lists cover.</summary>
    public static ListCover Of(ImmutableArray<TracedList> lists, long now)
    {
        var holes = ImmutableArray.CreateBuilder<ListHole>();
        var overlaps = ImmutableArray.CreateBuilder<ListOverlap>();
        var (ends, isOverSoon) = (default(long?), false);
        var names = lists.Select(list => list.Comparison.List.Controller).OfType<string>().Distinct().Order(StringComparer.Ordinal).ToList();
        foreach (var controller in names.Count < 2 ? [null] : names.Cast<string?>())
        {
            TracedList[] own = [.. lists.Where(list => controller is null || (list.Comparison.List.Controller ?? controller) == controller)
                .OrderBy(list => list.Comparison.List.From).ThenBy(list => list.Comparison.List.Until)];
            Add(own, controller, holes, overlaps);
            var end = EndOf(own, now);
            var isBetween = end is null && own.Any(list => list.Comparison.List.Until <= now);
            isOverSoon |= isBetween || end - now <= Soon;
            if (end is { } moment) ends = Math.Min(ends ?? long.MaxValue, moment);
        }

        return new ListCover(now, ends, isOverSoon, holes.ToImmutable(), [.. overlaps.Distinct()]);
    }

    /// <summary>The order in which lists are shown: what is in the device now, then what is to come, then what is over, the newest first.</summary>
    public static ImmutableArray<TracedList> InOrder(IEnumerable<TracedList> lists, long now) =>
    [
        .. lists.Select(traced => (Traced: traced, traced.Comparison.List)).OrderBy(each => each.List.Until <= now ? 2 : each.List.From > now ? 1 : 0)
            .ThenBy(each => each.List.From > now ? each.List.From : -each.List.From).Select(each => each.Traced),
    ];

    private static void Add(
        TracedList[] lists, string? controller, ImmutableArray<ListHole>.Builder holes, ImmutableArray<ListOverlap>.Builder overlaps)
    {
        for (var (index, last) = (1, 0); index < lists.Length; index++)
        {
            var (before, list) = (lists[last].Comparison.List, lists[index].Comparison.List);
            if (list.From > before.Until) holes.Add(new ListHole(before.Until, list.From, controller));
            else if (list.From < before.Until)
                overlaps.Add(new ListOverlap(lists[last].File, lists[index].File, list.From, Math.Min(before.Until, list.Until)));
            if (list.Until >= before.Until) last = index;
        }
    }

    /// <summary>Until when there is always one, from now on; null where there is none now.</summary>
    private static long? EndOf(TracedList[] lists, long now)
    {
        var end = default(long?);
        foreach (var list in lists.Select(list => list.Comparison.List))
        {
            if (list.From <= (end ?? now) && list.Until > (end ?? now)) end = list.Until;
        }

        return end;
    }
}

/// <summary>Time without a list between two.</summary>
/// <param name="From">Its first second, in Unix seconds.</param>
/// <param name="Until">The second after the last.</param>
/// <param name="Controller">For which controller, where lists are of several; else null.</param>
internal sealed record ListHole(long From, long Until, string? Controller);

/// <summary>Time for which there are two lists.</summary>
/// <param name="One">The file of the one that begins first.</param>
/// <param name="Other">The other.</param>
/// <param name="From">Its first second, in Unix seconds.</param>
/// <param name="Until">The second after the last.</param>
internal sealed record ListOverlap(string One, string Other, long From, long Until);
