using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Text;
using WaterScript.Text.Lines;

namespace WaterScript.Documents.Reports;

/// <summary>Prints what to do about a finding, and the lines that change.</summary>
/// <param name="lines">Where to.</param>
/// <param name="layout">The room there is.</param>
/// <param name="gutter">Columns of a line's number.</param>
internal sealed class FixPrinter(PlainLines lines, ReportLayout layout, int gutter)
{
    private const string Indent = "  ";
    private const string Ellipsis = "…";

    /// <summary>Lines of one sign that are all shown.</summary>
    private const int MostLines = 3;

    /// <summary>Places that are all shown.</summary>
    private const int MostBlocks = 2;

    /// <summary>Prints the fix, where there is one.</summary>
    public void Print(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        if (FindingText.Help(finding).Length == 0) return;
        var (title, words) = FindingText.FixWords(finding);
        foreach (var (index, line) in WordWrap.Of($"{title}: {words}", layout.Columns - Indent.Length).Index())
        {
            if (index == 0 && line.StartsWith(title, StringComparison.Ordinal))
                lines.Line((Indent, TextStyle.Plain), (title, TextStyle.Green), (line[title.Length..], TextStyle.Plain));
            else lines.Line(Indent + line);
        }

        if (finding.Fix is { Edits.IsEmpty: false } fix && !layout.IsTiny) PrintBlocks(EditLine.Of(fix), finding.Primary.Location.Source);
    }

    private void PrintBlocks(ImmutableArray<EditLine.Block> blocks, SourceText current)
    {
        var shown = blocks.Length > MostBlocks ? blocks[..1] : blocks;
        foreach (var block in shown)
        {
            if (block.Source != current) lines.Line(($"{Indent}{block.Source.Path}", TextStyle.Blue));
            current = block.Source;
            Print([.. block.Lines.Where(line => !line.IsWritten && !layout.IsNarrow)]);
            Print([.. block.Lines.Where(line => line.IsWritten)]);
        }

        if (shown.Length < blocks.Length) More(blocks[shown.Length..].Sum(block => block.Lines.Length));
    }

    private void Print(ImmutableArray<EditLine> changed)
    {
        var shown = changed.Length > MostLines ? changed[..2] : changed;
        foreach (var line in shown) PrintLine(line);
        if (shown.Length < changed.Length) More(changed.Length - shown.Length);
    }

    private void More(int count) =>
        lines.Line(string.Create(CultureInfo.InvariantCulture, $"{new string(' ', gutter)} {Ellipsis} {count} more {(count == 1 ? "line" : "lines")}"));

    private void PrintLine(EditLine line)
    {
        var number = line.Number.ToString(CultureInfo.InvariantCulture).PadLeft(gutter);
        var room = layout.SourceColumns - gutter - 3;
        var sign = line.IsWritten ? '+' : '-';
        lines.Line((number, TextStyle.Blue), ($" {sign} {Cut(line.Text, room)}".TrimEnd(), line.IsWritten ? TextStyle.Green : TextStyle.Gone));
    }

    /// <summary>The line, cut at its end where it is too long; what hides in it is shown.</summary>
    private static string Cut(string text, int columns)
    {
        var shown = DisplayLine.Of(text.AsSpan(0, Math.Min(text.Length, 4 * columns)));
        return shown.Width <= columns && text.Length <= 4 * columns ? shown.Slice(0, shown.Width) : shown.Slice(0, columns - Ellipsis.Length) + Ellipsis;
    }
}
