using System.Globalization;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts.Drawing;

/// <summary>
/// The texts over the bars of a lane, each where its bar begins. Where one has no room before the next it becomes shorter, and where
/// that does not do, items stand under one text together.
/// </summary>
/// <param name="xOf">Where an instant is drawn.</param>
/// <param name="right">The right edge of the lane.</param>
internal sealed class LaneTexts(Func<long, double> xOf, double right)
{
    private const double Gap = 6;
    private readonly List<Placed> _placed = [];

    /// <summary>The texts of a lane, from the left, which do not overlap.</summary>
    public static IEnumerable<(double X, string Text)> Of(IEnumerable<LaneItem> items, Func<long, double> xOf, double right)
    {
        var texts = new LaneTexts(xOf, right);
        foreach (var item in items) texts.Add([item]);
        return texts._placed.Select(placed => (placed.X, placed.Text));
    }

    private void Add(List<LaneItem> items)
    {
        if (Place(items)) return;
        var before = _placed[^1];
        _placed.RemoveAt(_placed.Count - 1);
        if (before.Items.Count == 1 && items.Count == 1 && PlaceShort(before.Items) && Place(items)) return;
        if (_placed.Count > 0 && _placed[^1].Items == before.Items) _placed.RemoveAt(_placed.Count - 1);
        Add([.. before.Items, .. items]);
    }

    /// <summary>Takes the first form for which there is room.</summary>
    private bool Place(List<LaneItem> items) => FormsOf(items).Any(text => Place(items, text));

    private bool PlaceShort(List<LaneItem> items) => Place(items, FormsOf(items)[^1]);

    private bool Place(List<LaneItem> items, string text)
    {
        var width = DrawnText.WidthOf(text);
        var x = Math.Min(xOf(items[0].From), right - width);
        if (_placed.Count > 0 && x < _placed[^1].Right + Gap) return false;
        _placed.Add(new Placed(items, x, x + width, text));
        return true;
    }

    /// <summary>What can be said of items, the longest first; of several together there is one form.</summary>
    private static string[] FormsOf(List<LaneItem> items)
    {
        var (first, last) = (items[0].Runs[0], items[^1].Runs[^1]);
        var times = $"{first.Clock}–{last.ClockOfEnd}";
        var runs = items.Sum(item => item.Runs.Length);
        return items switch
        {
            [{ IsRow: true } row] => RowForms($"every {Phrases.Length(row.Every)}", $"{first.Clock}–{last.Clock}", row.Passes),
            [_] when runs == 1 => [times, first.Clock],
            [_] => [string.Create(CultureInfo.InvariantCulture, $"{times}, {runs} cycles"), times, first.Clock],
            _ => [string.Create(CultureInfo.InvariantCulture, $"{times}, {runs} runs")],
        };
    }

    private static string[] RowForms(string every, string starts, int passes) =>
        [$"{every} {starts}, {Phrases.Count(passes, "time")}", $"{every} {starts}", every];

    /// <summary>A text and what it is for.</summary>
    private sealed record Placed(List<LaneItem> Items, double X, double Right, string Text);
}
