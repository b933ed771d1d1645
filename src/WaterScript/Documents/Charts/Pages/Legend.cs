using WaterScript.Documents.Charts.Drawing;

namespace WaterScript.Documents.Charts.Pages;

/// <summary>What the marks of a picture mean: those that are drawn in it, each once, in one order.</summary>
internal static class Legend
{
    /// <summary>The width of a sample.</summary>
    public const double Width = 32;

    /// <summary>The height of a sample.</summary>
    public const double Height = 14;

    private static readonly (string Mark, string Sample, string Words)[] Marks =
    [
        ("class=\"w\" x", "<rect class=\"w\" x=\"0\" y=\"1\" width=\"26\" height=\"12\"/>", "water"),
        ("class=\"soak\" d", Cycles, "cycles of one pass, and the soak between"),
        ("class=\"thread\"", "<path class=\"thread\" d=\"M6 0v14\"/>", "the pass goes on in another zone"),
        ("class=\"thread pause\"", "<path class=\"thread pause\" d=\"M2 7h22\"/><path class=\"thread\" d=\"M24 7v7\"/>", "pause between steps"),
        ("class=\"w\" d", "<path class=\"w\" d=\"M0 1h3v12h-3zM8 1h3v12h-3zM16 1h3v12h-3zM24 1h3v12h-3z\"/><path class=\"soak\" d=\"M0 13h27\"/>",
            "passes that repeat, each at its second"),
        ("class=\"pick wash\"", "<path class=\"wash\" d=\"M0 1h27v12h-27z\"/><path class=\"wl\" d=\"M0 1v12h27v-12\"/>",
            "the same, too close to be drawn apart here: zoom in"),
        ("class=\"hold\"", "<rect class=\"hold\" x=\"1\" y=\"2\" width=\"25\" height=\"10\"/>", "due, and not watered"),
        ("class=\"device\"", "<path class=\"device\" d=\"M1 1h25v12h-25z\"/>", "pump, master valve or injector on"),
        ("class=\"dark\"", Sky, "sunset to sunrise"),
        ("class=\"forbidden\"", "<rect class=\"forbidden\" x=\"0\" y=\"1\" width=\"27\" height=\"12\"/>",
            "no water allowed, by a restriction as read in the file"),
        ("class=\"over\"", "<rect class=\"over\" x=\"0\" y=\"1\" width=\"27\" height=\"12\"/>", "beyond the limit"),
        ("class=\"limit\"", "<path class=\"limit\" d=\"M0 7h28\"/>", "limit"),
        ("class=\"ax rush\"", Inrush, "inrush, as something opens"),
        ("sign error", "", "error"),
        ("sign warning", "", "warning"),
        ("sign advice", "", "advice"),
        ("rule fold", "<path class=\"rule fold\" d=\"M10 0v14M18 0v14\"/>", "hours without water, folded away; the number says how many"),
    ];

    /// <summary>The strip of day and night.</summary>
    internal const string Sky =
        "<rect class=\"day\" x=\".5\" y=\"5.5\" width=\"27\" height=\"4\"/><rect class=\"dark\" x=\"10\" y=\"5\" width=\"18\" height=\"5\"/>";

    /// <summary>The entries for a drawing, in the order in which they are shown.</summary>
    /// <param name="drawing">What is drawn.</param>
    public static IEnumerable<(string Sample, string Words)> Of(string drawing) =>
        Marks.Where(each => drawing.Contains(each.Mark, StringComparison.Ordinal)).Select(each => (SampleOf(each.Mark, each.Sample), each.Words));

    /// <summary>Writes entries as a list.</summary>
    public static void Write(MarkupWriter markup, IEnumerable<(string Sample, string Words)> entries)
    {
        var all = entries.ToList();
        if (all.Count == 0) return;
        markup.Open("ul", ("class", "legend"));
        foreach (var (sample, words) in all) Write(markup.Open("li"), sample, words);
        markup.Close();
    }

    /// <summary>Writes all entries that a drawing may have, those of it to be seen: the script of a page shows those of what it draws.</summary>
    /// <param name="markup">The page.</param>
    /// <param name="drawing">What is drawn.</param>
    public static void WriteAll(MarkupWriter markup, string drawing)
    {
        markup.Open("ul", ("class", "legend"));
        foreach (var (mark, sample, words) in Marks)
        {
            if (drawing.Contains(mark, StringComparison.Ordinal)) markup.Open("li", ("data-mark", mark));
            else markup.Open("li", ("data-mark", mark), ("hidden", "hidden"));
            Write(markup, SampleOf(mark, sample), words);
        }

        markup.Close();
    }

    private static void Write(MarkupWriter markup, string sample, string words)
    {
        var (width, height) = (Shapes.Number(Width), Shapes.Number(Height));
        markup.Raw($"<svg class=\"sheet\" width=\"{width}\" height=\"{height}\" aria-hidden=\"true\">{sample}</svg>").Text(words).Close();
    }

    private const string Cycles = "<rect class=\"w\" x=\"0\" y=\"1\" width=\"9\" height=\"12\"/><path class=\"soak\" d=\"M9 7h12\"/>" +
        "<rect class=\"w\" x=\"21\" y=\"1\" width=\"9\" height=\"12\"/>";

    private const string Inrush = "<path class=\"ax\" d=\"M6 14V2M14 14V6M22 14V2\"/>";

    private static string SampleOf(string mark, string sample) => sample.Length > 0 ? sample : Sign(mark);

    private static string Sign(string mark) => mark switch
    {
        "sign error" => "<path class=\"sign error\" d=\"M13 0l8 14h-16z\"/>",
        "sign warning" => "<path class=\"sign warning\" d=\"M13 0l7 7l-7 7l-7 -7z\"/>",
        _ => "<path class=\"sign advice\" d=\"M6 7a7 7 0 1 0 14 0a7 7 0 1 0 -14 0z\"/>",
    };
}
