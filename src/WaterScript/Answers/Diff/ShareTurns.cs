using System.Globalization;
using WaterScript.Model;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff;

/// <summary>What share of the written run times a schedule gives in each month, where that is the same every year.</summary>
internal static class ShareTurns
{
    private const int Months = 12;

    /// <summary>The months whose share changes; nothing where none does.</summary>
    public static IEnumerable<Turn> Between(Schedule old, Site oldSite, Schedule @new, Site newSite)
    {
        if (Of(old, oldSite) is not { } before || Of(@new, newSite) is not { } after) yield break;
        var months = Enumerable.Range(0, Months).Where(month => before[month] != after[month]).ToList();
        if (months.Count == 0) yield break;
        var isAll = months.Count == Months && before.Distinct().Count() == 1 && after.Distinct().Count() == 1;
        yield return new Turn(Turn.Shares, Words(before, isAll ? [0] : months, isAll), Words(after, isAll ? [0] : months, isAll))
        {
            Effect = isAll
                ? $"run times {Percent(before[0])} → {Percent(after[0])} %"
                : "run times " + string.Join(", ", Spans(months, before, after).Select(span =>
                    $"{Words(span)} {Percent(before[span.First])} → {Percent(after[span.First])} %")),
        };
    }

    private static decimal[]? Of(Schedule schedule, Site site)
    {
        var scale = ScaleTable.For(schedule, site);
        if (scale.ByMonth is { } months) return [.. months.Select(share => share ?? ScaleTable.AsWritten)];
        return scale.From(int.MinValue).Distinct().ToList() is [var always] ? [.. Enumerable.Repeat(always, Months)] : null;
    }

    /// <summary>Months one after the other that change alike.</summary>
    private static List<(int First, int Last)> Spans(List<int> months, decimal[] before, decimal[] after)
    {
        var spans = new List<(int First, int Last)>();
        foreach (var month in months)
        {
            var isNext = spans.Count > 0 && spans[^1].Last == month - 1 && before[month - 1] == before[month] && after[month - 1] == after[month];
            if (isNext) spans[^1] = (spans[^1].First, month);
            else spans.Add((month, month));
        }

        return spans;
    }

    private static string Words((int First, int Last) span) => span.First == span.Last ? Name(span.First) : $"{Name(span.First)} to {Name(span.Last)}";

    private static string Words(decimal[] shares, List<int> months, bool isAll) =>
        string.Join(", ", months.Select(month => (isAll ? "" : Name(month) + " ") + Percent(shares[month]) + " %"));

    private static string Name(int month) => Phrases.Month(month + 1)[..3];

    private static string Percent(decimal share) => share.ToString("0.#", CultureInfo.InvariantCulture);
}
