using System.Globalization;
using WaterScript.Text;
using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Documents.Reports;

/// <summary>Prints the marked lines of a file in their order: dots stand for two lines or more between them, one line between them is shown.</summary>
/// <param name="lines">Where to.</param>
/// <param name="layout">The room there is.</param>
/// <param name="gutter">Columns before the bar beside the source.</param>
internal sealed class ExcerptPrinter(PlainLines lines, ReportLayout layout, int gutter)
{
    private const string Bar = " | ";
    private const int MostLines = 4;

    /// <summary>Prints the lines of one file.</summary>
    /// <param name="underlines">The marks of that file; the finding's own first.</param>
    /// <param name="ink">Of the finding's own mark.</param>
    public void Print(IReadOnlyList<Underline> underlines, TextStyle ink)
    {
        ArgumentNullException.ThrowIfNull(underlines);
        var groups = Groups(underlines);
        var shown = groups.Take(layout.IsNarrow ? 2 : MostLines).OrderBy(group => group[0].Line).ThenBy(group => group[0].Span.Start);
        var before = int.MaxValue;
        foreach (var group in shown)
        {
            PrintBetween(group[0].Source, before, group[0].Line);
            PrintLine(ExcerptLine.Of(group, Room), ink);
            before = group[0].Line;
        }

        if (!layout.IsNarrow && groups.Count > MostLines) Dots($"and {Phrases.Count(groups.Count - MostLines, "more line")}");
    }

    private int Room => layout.SourceColumns - gutter - Bar.Length;

    /// <summary>The marks by line, in the order in which the lines are named; in a line too long to show whole each has an excerpt of its own.</summary>
    private List<Underline[]> Groups(IReadOnlyList<Underline> underlines) =>
    [
        .. underlines
            .GroupBy(underline => ExcerptLine.IsLong(underline, Room) ? (underline.Line, underline.Span.Start) : (underline.Line, Start: -1))
            .Select(line => line.OrderBy(underline => underline.Span.Start).ToArray()),
    ];

    private void PrintBetween(SourceText source, int before, int line)
    {
        if (line - 2 == before) PrintSource(line - 1, ExcerptLine.Beginning(source, line - 1, Room));
        else if (line - 2 > before) Dots("");
    }

    private void Dots(string words) => lines.Line(("...".PadLeft(gutter), TextStyle.Blue), (words.Length > 0 ? " " + words : "", TextStyle.Plain));

    private void PrintLine(ExcerptLine line, TextStyle ink)
    {
        if (line.LineBefore is { } lineBefore) PrintSource(line.Number - 1, lineBefore);
        PrintSource(line.Number, line.Text);
        foreach (var mark in line.Marks) PrintMark(mark, mark.IsPrimary ? ink : TextStyle.Blue);
    }

    private void PrintMark(ExcerptLine.MarkedColumns mark, TextStyle ink)
    {
        var words = PlainLines.Shown(mark.Text);
        var room = layout.Columns - gutter - Bar.Length;
        var length = DisplayWidth.Of(words);
        var isBeside = length == 0 || (!layout.HasLabelsBelow && mark.Column + mark.Width + 1 + length <= room);
        Beside(mark.Column, (new string(mark.IsPrimary ? '^' : '-', mark.Width), ink), isBeside && length > 0 ? " " + words : "");
        if (!isBeside) Beside(layout.IsTerminal ? Math.Max(0, Math.Min(mark.Column, room - length)) : mark.Column, ("", TextStyle.Plain), words);
    }

    private void Beside(int column, (string Words, TextStyle Ink) mark, string words) => lines.Line(
        (new string(' ', gutter) + " |", TextStyle.Blue),
        (new string(' ', column + 1), TextStyle.Plain),
        mark,
        (words, TextStyle.Plain));

    private void PrintSource(int number, string text) => lines.Line(
        (number.ToString(CultureInfo.InvariantCulture).PadLeft(gutter) + " |", TextStyle.Blue),
        (text.Length > 0 ? " " + text : "", TextStyle.Plain));
}
