using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Text;
using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Documents.Reports;

/// <summary>Prints findings for people: heading, place, the lines with the cause underlined, a sentence, a fix.</summary>
/// <param name="lines">Where to.</param>
internal sealed class FindingPrinter(PlainLines lines)
{
    private const string Indent = "  ";
    private const int LeastGutter = 5;

    /// <summary>Prints one finding and a blank line after it.</summary>
    public void Print(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        Print(finding, before: "");
    }

    /// <summary>Prints several.</summary>
    public void Print(IEnumerable<Finding> findings)
    {
        ArgumentNullException.ThrowIfNull(findings);
        foreach (var finding in findings) Print(finding);
    }

    /// <summary>Prints a finding that the user accepts, without a fix, and a blank line after it.</summary>
    /// <param name="finding">What was found.</param>
    /// <param name="acceptance">The line that accepts it, with the reason.</param>
    public void PrintAccepted(Finding finding, Label acceptance)
    {
        ArgumentNullException.ThrowIfNull(finding);
        Print(finding with { Others = finding.Others.Add(acceptance), Help = "", Fix = null }, before: "accepted ");
    }

    private void Print(Finding finding, string before)
    {
        PrintHeading(finding, before);
        var underlines = Marks(finding);
        var gutter = Math.Max(LeastGutter, Digits(underlines.Max(underline => underline.Line)) + Indent.Length);
        foreach (var file in underlines.GroupBy(underline => underline.Source))
        {
            PrintPlace(file.First().Place);
            PrintExcerpt([.. file], gutter, InkOf(finding.Severity));
        }

        if (finding.Happens is { } occurrences) PrintIndented(MomentWords.When(occurrences));
        PrintIndented(finding.Details);
        PrintIndented(finding.Assumed);
        if (FindingText.Help(finding) is { Length: > 0 } help) PrintIndented("Fix: " + help);
        lines.Line();
    }

    private void PrintHeading(Finding finding, string before) => lines.Line(
        (before, before.Length > 0 ? TextStyle.Faint : TextStyle.Plain),
        (FindingSummary.WordOf(finding.Severity), InkOf(finding.Severity)),
        ($": {finding.Heading}", TextStyle.Strong),
        ($" [{finding.Rule.Slug}]", TextStyle.Plain));

    private void PrintPlace(Location place)
    {
        var (line, column) = place.Start;
        lines.Line((string.Create(CultureInfo.InvariantCulture, $"{Indent}{place.Source.Path}:{line}:{column}"), TextStyle.Faint));
    }

    /// <summary>The marked lines of one file, in the order of their labels; dots stand for lines left out between one and a later one.</summary>
    private void PrintExcerpt(List<Underline> underlines, int gutter, TextStyle textStyle)
    {
        var before = int.MaxValue;
        foreach (var line in LinesOf(underlines))
        {
            if (line.Number - 1 > before) lines.Line(("...".PadLeft(gutter), TextStyle.Faint));
            PrintLine(line, gutter, textStyle);
            before = line.Number;
        }
    }

    private void PrintLine(ExcerptLine line, int gutter, TextStyle textStyle)
    {
        if (line.LineBefore is { } lineBefore) PrintSource(line.Number - 1, lineBefore, gutter);
        PrintSource(line.Number, line.Text, gutter);
        foreach (var mark in line.Marks)
        {
            lines.Line(
                (new string(' ', gutter) + " |", TextStyle.Faint),
                (new string(' ', mark.Column + 1), TextStyle.Plain),
                (new string(mark.IsPrimary ? '^' : '-', mark.Width), mark.IsPrimary ? textStyle : TextStyle.Faint),
                (mark.Text.Length > 0 ? " " + mark.Text : "", TextStyle.Plain));
        }
    }

    private void PrintSource(int number, string text, int gutter) => lines.Line(
        (number.ToString(CultureInfo.InvariantCulture).PadLeft(gutter) + " |", TextStyle.Faint),
        (text.Length > 0 ? " " + text : "", TextStyle.Plain));

    /// <summary>Groups the marks by line; in a line too long to show whole each has an excerpt of its own.</summary>
    private static IEnumerable<ExcerptLine> LinesOf(List<Underline> underlines) => underlines
        .GroupBy(underline => ExcerptLine.IsLong(underline) ? (underline.Line, underline.Span.Start) : (underline.Line, Start: -1))
        .Select(line => ExcerptLine.Of([.. line]));

    private static List<Underline> Marks(Finding finding) =>
    [
        .. Underline.Of(finding.Primary, isPrimary: true),
        .. finding.Others.SelectMany(label => Underline.Of(label, isPrimary: false)),
    ];

    /// <summary>A sentence or several, each on its line.</summary>
    private void PrintIndented(string text)
    {
        if (text.Length == 0) return;
        foreach (var line in text.Split('\n')) lines.Line($"{Indent}{line}".TrimEnd());
    }

    private static TextStyle InkOf(Severity severity) => severity switch
    {
        Severity.Error => TextStyle.Red,
        Severity.Warning => TextStyle.Yellow,
        _ => TextStyle.Cyan,
    };

    private static int Digits(int number) => number.ToString(CultureInfo.InvariantCulture).Length;
}
