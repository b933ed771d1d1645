using WaterScript.Diagnostics;
using WaterScript.Syntax.Formatting;
using WaterScript.Text;

namespace WaterScript.Checks;

/// <summary>A statement that a fix writes into a block; in a file that is laid out, as <c>format</c> would lay it out.</summary>
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

    /// <summary>The edit and what the layout changes because of it; the edit alone in a file that has another layout.</summary>
    private static TextEdit LaidOut(TextEdit edit)
    {
        var source = edit.Location.Source;
        if (Formatter.Format(source, new FindingList())?.Text != source.Text) return edit;
        var edited = Formatter.Format(Edits.Apply(source, [edit]), new FindingList());
        return edited is null ? edit : Difference(source, edited.Text);
    }

    /// <summary>The one edit that makes a text of another.</summary>
    private static TextEdit Difference(SourceText before, string after)
    {
        var same = before.Text.AsSpan().CommonPrefixLength(after);
        var (end, newEnd) = (before.Text.Length, after.Length);
        while (end > same && newEnd > same && before.Text[end - 1] == after[newEnd - 1]) (end, newEnd) = (end - 1, newEnd - 1);
        return new TextEdit(new Location(before, TextSpan.FromBounds(same, end)), after[same..newEnd]);
    }
}
