using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Documents.Reports;

/// <summary>What is underlined on one line because of a label.</summary>
/// <param name="Place">The label's place, of which this may be a part.</param>
/// <param name="Line">The line, from 1.</param>
/// <param name="Span">What is underlined, within the line.</param>
/// <param name="IsPrimary">Whether it is the finding's own place.</param>
/// <param name="Text">What is said beside it; may be empty.</param>
internal readonly record struct Underline(Location Place, int Line, TextSpan Span, bool IsPrimary, string Text)
{
    /// <summary>The file.</summary>
    public SourceText Source => Place.Source;

    /// <summary>One mark for a label on one line; else one on its first line and one, with the text, on its last.</summary>
    public static IEnumerable<Underline> Of(Label label, bool isPrimary)
    {
        var source = label.Location.Source;
        var span = WithoutTail(label.Location);
        var first = source.PositionOf(span.Start).Line;
        var last = source.PositionOf(span.End).Line;
        if (first == last) return [new Underline(label.Location, first, span, isPrimary, label.Text)];
        var end = source.LineSpan(last);
        return
        [
            new Underline(label.Location, first, TextSpan.FromBounds(span.Start, source.LineSpan(first).End), isPrimary, ""),
            new Underline(label.Location, last, TextSpan.FromBounds(FirstInk(source, end), span.End), isPrimary, label.Text),
        ];
    }

    /// <summary>The span without the blanks and line ends at its end, so that it does not reach into a line of which it shows nothing.</summary>
    private static TextSpan WithoutTail(Location location)
    {
        var (start, end) = (location.Span.Start, location.Span.End);
        while (end > start + 1 && char.IsWhiteSpace(location.Source.Text[end - 1])) end--;
        var line = location.Source.LineSpan(location.Start.Line);
        return start >= line.End ? new TextSpan(Math.Min(start, line.End), 0) : TextSpan.FromBounds(start, end);
    }

    private static int FirstInk(SourceText source, TextSpan line)
    {
        var start = line.Start;
        while (start < line.End && char.IsWhiteSpace(source.Text[start])) start++;
        return start;
    }
}
