using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Documents.Reports;

/// <summary>A line that a fix takes out or writes.</summary>
/// <param name="Number">Its number, from 1, in the file before or after the fix.</param>
/// <param name="Text">The line.</param>
/// <param name="IsWritten">Whether the fix writes it; else it takes it out.</param>
internal readonly record struct EditLine(int Number, string Text, bool IsWritten)
{
    /// <summary>Changed lines that stand together.</summary>
    /// <param name="Source">The file.</param>
    /// <param name="Lines">First those taken out, then those written.</param>
    internal sealed record Block(SourceText Source, ImmutableArray<EditLine> Lines);

    /// <summary>What a fix does to the lines of the files, in their order.</summary>
    public static ImmutableArray<Block> Of(Fix fix)
    {
        ArgumentNullException.ThrowIfNull(fix);
        return
        [
            .. fix.Edits.GroupBy(edit => edit.Location.Source)
                .SelectMany(file => Stretches(file.OrderBy(edit => edit.Location.Span.Start)))
                .Select(BlockOf),
        ];
    }

    /// <summary>Edits whose lines touch, together.</summary>
    private static List<List<TextEdit>> Stretches(IEnumerable<TextEdit> edits)
    {
        var stretches = new List<List<TextEdit>>();
        foreach (var edit in edits)
        {
            if (stretches is [.., var last] && edit.Location.Start.Line <= LastLine(last[^1].Location)) last.Add(edit);
            else stretches.Add([edit]);
        }

        return stretches;
    }

    private static Block BlockOf(List<TextEdit> edits)
    {
        var source = edits[0].Location.Source;
        var (first, last) = (edits[0].Location.Start.Line, edits.Max(edit => LastLine(edit.Location)));
        var span = TextSpan.FromBounds(source.LineSpan(first).Start, last < source.LineCount ? source.LineSpan(last + 1).Start : source.Text.Length);
        var (before, after) = (Lines(source.Slice(span)), Lines(Edited(source, span, edits)));
        var (same, room) = (0, Math.Min(before.Length, after.Length));
        while (same < room && before[same] == after[same]) same++;
        var sameAtEnd = 0;
        while (sameAtEnd < room - same && before[^(sameAtEnd + 1)] == after[^(sameAtEnd + 1)]) sameAtEnd++;
        var shown = same;
        return new(source,
        [
            .. before[same..^sameAtEnd].Select((text, index) => new EditLine(first + shown + index, text, IsWritten: false)),
            .. after[same..^sameAtEnd].Select((text, index) => new EditLine(first + shown + index, text, IsWritten: true)),
        ]);
    }

    /// <summary>The last line of which an edit touches more than the end of the line before it.</summary>
    private static int LastLine(Location location)
    {
        var end = location.End;
        return end.Column == 1 && location.Span.Length > 0 ? end.Line - 1 : end.Line;
    }

    private static string Edited(SourceText source, TextSpan span, List<TextEdit> edits)
    {
        var (text, at) = ("", span.Start);
        foreach (var (location, replacement) in edits)
        {
            text += source.Slice(TextSpan.FromBounds(at, location.Span.Start)) + replacement;
            at = location.Span.End;
        }

        return text + source.Slice(TextSpan.FromBounds(at, span.End));
    }

    private static string[] Lines(string text)
    {
        var lines = text.Replace("\r\n", "\n", StringComparison.Ordinal).Replace('\r', '\n');
        if (lines.Length == 0) return [];
        return (lines.EndsWith('\n') ? lines[..^1] : lines).Split('\n');
    }
}
