using System.Globalization;
using WaterScript.Text;

namespace WaterScript.Diagnostics;

/// <summary>Prints findings for people: heading, place, the lines with the cause underlined, a sentence, a way out.</summary>
/// <param name="lines">Where to.</param>
public sealed class FindingPrinter(PlainLines lines)
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

    /// <summary>Prints a finding that the user accepts, without a way out, and a blank line after it.</summary>
    /// <param name="finding">What was found.</param>
    /// <param name="acceptance">The line that accepts it, with the reason.</param>
    public void PrintAccepted(Finding finding, Label acceptance)
    {
        ArgumentNullException.ThrowIfNull(finding);
        Print(finding with { Others = finding.Others.Add(acceptance), WayOut = "", Fix = null }, before: "accepted ");
    }

    private void Print(Finding finding, string before)
    {
        PrintHeading(finding, before);
        var marks = Marks(finding);
        var gutter = Math.Max(LeastGutter, Digits(marks.Max(mark => mark.Line)) + Indent.Length);
        foreach (var file in marks.GroupBy(mark => mark.Source))
        {
            PrintPlace(file.First().Place);
            PrintExcerpt([.. file], gutter, InkOf(finding.Severity));
        }

        if (finding.Happens is { } happening) PrintIndented(MomentWords.When(happening));
        PrintIndented(finding.Details);
        PrintIndented(finding.Assumed);
        if (FindingText.WayOut(finding) is { Length: > 0 } wayOut) PrintIndented("Way out: " + wayOut);
        lines.Line();
    }

    private void PrintHeading(Finding finding, string before) => lines.Line(
        (before, before.Length > 0 ? Ink.Faint : Ink.Plain),
        (Tally.WordOf(finding.Severity), InkOf(finding.Severity)),
        ($": {finding.Heading}", Ink.Strong),
        ($" [{finding.Rule.Slug}]", Ink.Plain));

    private void PrintPlace(Location place)
    {
        var (line, column) = place.Start;
        lines.Line((string.Create(CultureInfo.InvariantCulture, $"{Indent}{place.Source.Path}:{line}:{column}"), Ink.Faint));
    }

    /// <summary>The marked lines of one file, in the order of their labels; dots stand for lines left out between one and a later one.</summary>
    private void PrintExcerpt(List<Mark> marks, int gutter, Ink ink)
    {
        var before = int.MaxValue;
        foreach (var line in LinesOf(marks))
        {
            if (line.Number - 1 > before) lines.Line(("...".PadLeft(gutter), Ink.Faint));
            PrintLine(line, gutter, ink);
            before = line.Number;
        }
    }

    private void PrintLine(ExcerptLine line, int gutter, Ink ink)
    {
        if (line.LineBefore is { } lineBefore) PrintSource(line.Number - 1, lineBefore, gutter);
        PrintSource(line.Number, line.Text, gutter);
        foreach (var mark in line.Marks)
        {
            lines.Line(
                (new string(' ', gutter) + " |", Ink.Faint),
                (new string(' ', mark.Column + 1), Ink.Plain),
                (new string(mark.IsPrimary ? '^' : '-', mark.Width), mark.IsPrimary ? ink : Ink.Faint),
                (mark.Text.Length > 0 ? " " + mark.Text : "", Ink.Plain));
        }
    }

    private void PrintSource(int number, string text, int gutter) => lines.Line(
        (number.ToString(CultureInfo.InvariantCulture).PadLeft(gutter) + " |", Ink.Faint),
        (text.Length > 0 ? " " + text : "", Ink.Plain));

    /// <summary>Groups the marks by line; in a line too long to show whole each has an excerpt of its own.</summary>
    private static IEnumerable<ExcerptLine> LinesOf(List<Mark> marks) => marks
        .GroupBy(mark => ExcerptLine.IsLong(mark) ? (mark.Line, mark.Span.Start) : (mark.Line, Start: -1))
        .Select(line => ExcerptLine.Of([.. line]));

    private static List<Mark> Marks(Finding finding) =>
    [
        .. Mark.Of(finding.Primary, isPrimary: true),
        .. finding.Others.SelectMany(label => Mark.Of(label, isPrimary: false)),
    ];

    /// <summary>A sentence or several, each on its line.</summary>
    private void PrintIndented(string text)
    {
        if (text.Length == 0) return;
        foreach (var line in text.Split('\n')) lines.Line($"{Indent}{line}".TrimEnd());
    }

    private static Ink InkOf(Severity severity) => severity switch
    {
        Severity.Error => Ink.Red,
        Severity.Warning => Ink.Yellow,
        _ => Ink.Cyan,
    };

    private static int Digits(int number) => number.ToString(CultureInfo.InvariantCulture).Length;
}
