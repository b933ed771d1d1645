using WaterScript.Diagnostics;
using WaterScript.Syntax.Formatting;
using WaterScript.Text;

namespace WaterScript.Linting.Fixes;

/// <summary>A statement that a fix writes into a block; in one that is laid out, as <c>format</c> would lay it out.</summary>
internal static class WrittenLine
{
    /// <summary>A fix that writes it before another statement of the block, and before the comments that stand above that.</summary>
    public static Fix Before(Location statement, string words)
    {
        var (source, start) = (statement.Source, statement.Span.Start);
        var line = statement.Start.Line;
        var indent = source.Text[source.LineSpan(line).Start..start];
        if (!string.IsNullOrWhiteSpace(indent) && indent.Length > 0) return FixOf(source, start, $"{words}; ", words);
        while (line > 1 && source.Slice(source.LineSpan(line - 1)).TrimStart().StartsWith('#')) line--;
        return FixOf(source, source.LineSpan(line).Start, $"{indent}{words}{LineEndOf(source)}", words);
    }

    private static Fix FixOf(SourceText source, int at, string text, string words) =>
        new($"write {words}", IsSafe: false, [LaidOut(new TextEdit(new Location(source, new TextSpan(at, 0)), text))]);

    private static string LineEndOf(SourceText source) => source.Text.Contains("\r\n", StringComparison.Ordinal) ? "\r\n" : "\n";

    /// <summary>The edit and what the layout of its block changes because of it; the edit alone in a block that has another layout.</summary>
    private static TextEdit LaidOut(TextEdit edit)
    {
        var (source, span) = edit.Location;
        var block = BlockAround(source, source.PositionOf(span.Start).Line);
        var before = source.Slice(block);
        if (TextInLayout(before) != before) return edit;
        var at = span.Start - block.Start;
        return TextInLayout(before.Insert(at, edit.Replacement)) is { } after ? Difference(source, block, before, after) : edit;
    }

    /// <summary>
    /// The lines of the block that a statement on a line of its own stands in, by what is indented less; else that line. A file may be long, and only
    /// this is laid out.
    /// </summary>
    private static TextSpan BlockAround(SourceText source, int line)
    {
        var (first, last) = (line, line);
        if (IndentOf(source, line) > 0)
        {
            while (first > 1 && IndentOf(source, first) > 0) first--;
            while (last < source.LineCount && IndentOf(source, last) > 0) last++;
        }

        return TextSpan.FromBounds(source.LineSpan(first).Start, last < source.LineCount ? source.LineSpan(last + 1).Start : source.Text.Length);
    }

    /// <summary>How far a line is indented; a blank one stands in the block around it.</summary>
    private static int IndentOf(SourceText source, int line)
    {
        var text = source.Text.AsSpan(source.LineSpan(line).Start, source.LineSpan(line).Length);
        return text.IsWhiteSpace() ? int.MaxValue : text.Length - text.TrimStart().Length;
    }

    private static string? TextInLayout(string text) => Formatter.Format(SourceText.From("", text), new FindingList())?.Text;

    /// <summary>The one edit that makes another text of what stands at a place.</summary>
    private static TextEdit Difference(SourceText source, TextSpan place, string before, string after)
    {
        var same = before.AsSpan().CommonPrefixLength(after);
        var (end, newEnd) = (before.Length, after.Length);
        while (end > same && newEnd > same && before[end - 1] == after[newEnd - 1]) (end, newEnd) = (end - 1, newEnd - 1);
        return new TextEdit(new Location(source, TextSpan.FromBounds(place.Start + same, place.Start + end)), after[same..newEnd]);
    }
}
