using System.Collections.Immutable;
using WaterScript.Text;

namespace WaterScript.Documents.Reports;

/// <summary>A line of source to show, with what is underlined in it.</summary>
/// <param name="Number">The line, from 1.</param>
/// <param name="Text">As shown; the stretch around the mark where the line is too long, with an ellipsis at a cut.</param>
/// <param name="Marks">Underlines, in columns of that text.</param>
internal sealed record ExcerptLine(int Number, string Text, ImmutableArray<ExcerptLine.MarkedColumns> Marks)
{
    /// <summary>Code units of a column, to look at on each side of a mark: a character may take several.</summary>
    private const int UnitsOfColumn = 4;

    private const string Ellipsis = "…";

    /// <summary>The line before a blank one, which shows nothing itself, as at the end of a file; else null.</summary>
    public string? LineBefore { get; private init; }

    /// <summary>Whether the line of a mark may not fit.</summary>
    /// <param name="underline">The mark.</param>
    /// <param name="columns">Columns that there are.</param>
    public static bool IsLong(Underline underline, int columns)
    {
        var line = underline.Source.LineSpan(underline.Line);
        return line.Length > UnitsOfColumn * columns || DisplayLine.Of(underline.Source.Text.AsSpan(line.Start, line.Length)).Width > columns;
    }

    /// <summary>The line of some marks; of one mark only, where the line is long.</summary>
    /// <param name="underlines">The marks.</param>
    /// <param name="columns">Columns that there are.</param>
    public static ExcerptLine Of(IReadOnlyList<Underline> underlines, int columns)
    {
        ArgumentNullException.ThrowIfNull(underlines);
        var first = underlines[0];
        var line = Near(first, columns);
        var shown = DisplayLine.Of(first.Source.Text.AsSpan(line.Start, line.Length));
        var window = Window.Around(
            shown.ColumnOf(first.Span.Start - line.Start),
            shown.Width,
            columns,
            cutBefore: line.Start > first.Source.LineSpan(first.Line).Start,
            cutAfter: line.End < first.Source.LineSpan(first.Line).End);
        var text = (window.CutBefore ? Ellipsis : "") + shown.Slice(window.From, window.To).TrimEnd() + (window.CutAfter ? Ellipsis : "");
        return new ExcerptLine(first.Line, text, [.. underlines.Select(underline => Underlined(underline, line, shown, window))])
        {
            LineBefore = text.Length == 0 && first.Line > 1 ? Beginning(first.Source, first.Line - 1, columns) : null,
        };
    }

    /// <summary>A line without marks, cut at its end where it is too long.</summary>
    public static string Beginning(SourceText source, int line, int columns)
    {
        ArgumentNullException.ThrowIfNull(source);
        var span = source.LineSpan(line);
        var shown = DisplayLine.Of(source.Text.AsSpan(span.Start, Math.Min(span.Length, UnitsOfColumn * columns)));
        var isCut = span.Length > UnitsOfColumn * columns || shown.Width > columns;
        return isCut ? shown.Slice(0, columns - Ellipsis.Length) + Ellipsis : shown.Slice(0, columns).TrimEnd();
    }

    private static MarkedColumns Underlined(Underline underline, TextSpan line, DisplayLine shown, Window window)
    {
        var from = shown.ColumnOf(Math.Max(underline.Span.Start - line.Start, 0));
        var to = shown.ColumnOf(Math.Min(underline.Span.End, line.End) - line.Start);
        var start = Math.Clamp(from, window.From, window.To) - window.From + (window.CutBefore ? Ellipsis.Length : 0);
        var width = Math.Min(to, window.To) - Math.Max(from, window.From);
        return new MarkedColumns(start, Math.Max(1, width), underline.IsPrimary, underline.Text);
    }

    /// <summary>The line, or as much of it around the mark as could be shown.</summary>
    private static TextSpan Near(Underline underline, int columns)
    {
        var reach = UnitsOfColumn * columns;
        var line = underline.Source.LineSpan(underline.Line);
        var start = Math.Max(line.Start, underline.Span.Start - reach);
        if (start > line.Start && char.IsLowSurrogate(underline.Source.Text[start])) start--;
        return TextSpan.FromBounds(start, Math.Min(line.End, underline.Span.Start + reach));
    }

    /// <summary>An underline.</summary>
    /// <param name="Column">First column, from 0.</param>
    /// <param name="Width">Number of columns, at least 1.</param>
    /// <param name="IsPrimary">Whether it is the finding's own place.</param>
    /// <param name="Text">What is said beside it.</param>
    internal readonly record struct MarkedColumns(int Column, int Width, bool IsPrimary, string Text);

    /// <summary>The columns that are shown.</summary>
    private readonly record struct Window(int From, int To, bool CutBefore, bool CutAfter)
    {
        /// <summary>As many columns as there are, with the mark, and where it is too far right with a little of what stands before it.</summary>
        public static Window Around(int column, int width, int columns, bool cutBefore, bool cutAfter)
        {
            if (!cutBefore && !cutAfter && width <= columns) return new Window(0, width, CutBefore: false, CutAfter: false);
            var (room, lead) = (columns - (2 * Ellipsis.Length), columns / 4);
            var from = column <= room - lead && !cutBefore ? 0 : Math.Max(0, column - lead);
            var to = Math.Min(width, from + room);
            return new Window(from, to, cutBefore || from > 0, cutAfter || to < width);
        }
    }
}
