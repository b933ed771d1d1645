using WaterScript.Documents.Charts.Drawing;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts;

/// <summary>What the signs of a chart mean: those that stand in it, each with its words.</summary>
internal static class ChartLegend
{
    /// <summary>Width of a sample.</summary>
    public const double Width = 44;

    /// <summary>Height of a sample.</summary>
    public const double Height = 16;

    private static readonly Box Field = new(1, 2, Width - 2, Height - 4);

    /// <summary>The entries of a chart, in the order in which they are shown.</summary>
    public static IEnumerable<(Action<MarkupWriter> Draw, string Words)> Of(Chart chart)
    {
        var items = chart.Days.SelectMany(day => day.Lanes).SelectMany(lane => lane.Items).ToList();
        var curves = chart.Days.SelectMany(day => day.Curves).ToList();
        if (items.Any(item => !item.IsRow)) yield return (Pass, "water; the tick starts a pass, once through the steps");
        if (items.Any(item => !item.IsRow && item.Runs.Length > 1)) yield return (Cycles, "cycles of one pass");
        if (items.Any(item => item.IsRow)) yield return (markup => Filled(markup, "passes", "row"), "passes too short or too close to be drawn apart");
        if (chart.Days.Any(day => !day.Nights.IsEmpty)) yield return (Night, "night, sunset to sunrise");
        if (!chart.Restrictions.IsEmpty)
            yield return (markup => Filled(markup, "forbidden", "frame"), $"no water allowed: {string.Join(", ", chart.Restrictions)}");
        if (curves.Any(curve => curve.Limit is not null)) yield return (Limit, "limit");
        if (curves.Any(curve => !curve.Beyond.IsEmpty)) yield return (markup => Filled(markup, "beyond", "frame"), "beyond the limit");
        foreach (var severity in chart.Findings.Select(finding => finding.Finding.Severity).Distinct().OrderDescending())
        {
            yield return (markup => DaySvg.WriteSign(markup, severity, Width / 2, Height / 2), FindingSummary.WordOf(severity));
        }
    }

    /// <summary>The hatchings that drawings refer to.</summary>
    public static void WritePatterns(MarkupWriter markup)
    {
        markup.Open("defs");
        Pattern(markup, "passes", size: 5, "M-1 6L6 -1M-1 1L1 -1M4 6L6 4", "row-line");
        Pattern(markup, "forbidden", size: 7, "M-1 -1L8 8M-1 6L1 8M6 -1L8 1", "hatch-line");
        Pattern(markup, "beyond", size: 4, "M0 0L4 4M4 0L0 4", "beyond-line");
        markup.Close();
    }

    private static void Pattern(MarkupWriter markup, string name, int size, string path, string style)
    {
        var side = MarkupWriter.Number(size);
        markup.Open("pattern", ("id", name), ("width", side), ("height", side), ("patternUnits", "userSpaceOnUse"));
        markup.Empty("path", ("class", style), ("fill", "none"), ("d", path));
        markup.Close();
    }

    private static void Pass(MarkupWriter markup)
    {
        markup.Empty("path", ("class", "cycles"), ("d", "M4 1L4 15"));
        markup.Open("g", ("class", "run")).Empty("rect", ("x", "4"), ("y", "4"), ("width", "30"), ("height", "8")).Close();
    }

    private static void Cycles(MarkupWriter markup)
    {
        markup.Empty("path", ("class", "cycles"), ("d", "M4 1L4 15M4 8L40 8"));
        markup.Open("g", ("class", "run"));
        foreach (var x in new[] { "4", "18", "32" }) markup.Empty("rect", ("x", x), ("y", "4"), ("width", "8"), ("height", "8"));
        markup.Close();
    }

    private static void Night(MarkupWriter markup) => Rect(markup, ("class", "night"));

    private static void Limit(MarkupWriter markup) => markup.Empty("path", ("class", "limit"), ("d", "M1 8L43 8"));

    private static void Filled(MarkupWriter markup, string pattern, string frame)
    {
        Rect(markup, ("fill", $"url(#{pattern})"));
        Rect(markup, ("class", frame), ("fill", "none"));
    }

    private static void Rect(MarkupWriter markup, params ReadOnlySpan<(string Name, string Value)> look) => markup.Empty(
        "rect", [("x", MarkupWriter.Number(Field.X)), ("y", MarkupWriter.Number(Field.Y)), ("width", MarkupWriter.Number(Field.Width)),
            ("height", MarkupWriter.Number(Field.Height)), .. look]);
}
