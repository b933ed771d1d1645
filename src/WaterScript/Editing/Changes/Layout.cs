using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Syntax.Formatting;
using WaterScript.Text;
using WaterScript.Text.Diffs;

namespace WaterScript.Editing.Changes;

/// <summary>What the layout of a file would change, as few lines as possible, so that cursors and marks stay where they are.</summary>
internal static class Layout
{
    /// <summary>All changes; none where the file has an error, as nobody knows then how it is meant.</summary>
    public static ImmutableArray<TextEdit> Of(SourceText source)
    {
        ArgumentNullException.ThrowIfNull(source);
        return Formatter.Format(source, []) is { } formatted ? Between(source, formatted.Text) : [];
    }

    /// <summary>The changes of the lines that a stretch touches.</summary>
    public static ImmutableArray<TextEdit> Of(SourceText source, TextSpan span)
    {
        ArgumentNullException.ThrowIfNull(source);
        var (first, last) = (source.PositionOf(span.Start).Line, source.PositionOf(span.End).Line);
        return [.. Of(source).Where(edit => edit.Location.Start.Line <= last && LastLineOf(edit) >= first)];
    }

    /// <summary>An edit of whole lines ends where the line after them begins.</summary>
    private static int LastLineOf(TextEdit edit) => Math.Max(edit.Location.Start.Line, edit.Location.End.Line - 1);

    /// <summary>The changes of the block that a brace ends.</summary>
    /// <param name="source">The file.</param>
    /// <param name="offset">Just past the brace.</param>
    public static ImmutableArray<TextEdit> OfBlock(SourceText source, int offset)
    {
        ArgumentNullException.ThrowIfNull(source);
        if (offset == 0 || offset > source.Text.Length || source.Text[offset - 1] != '}') return [];
        var (depth, start) = (0, offset - 1);
        for (; start >= 0; start--)
        {
            if (source.Text[start] == '}') depth++;
            if (source.Text[start] == '{' && --depth == 0) break;
        }

        return start < 0 ? [] : Of(source, TextSpan.FromBounds(start, offset));
    }

    /// <summary>What turns a text into another.</summary>
    public static ImmutableArray<TextEdit> Between(SourceText source, string text)
    {
        ArgumentNullException.ThrowIfNull(source);
        var (old, @new) = (LinesOf(source), LinesOf(SourceText.From(source.Path, text)));
        return [.. LineChanges.Between(old, @new).SelectMany(ByLine).Select(change => EditOf(source, change, @new))];
    }

    /// <summary>Where as many lines come as go, each is a change of its own.</summary>
    private static IEnumerable<LineChange> ByLine(LineChange change) => change.OldCount != change.NewCount
        ? [change]
        : Enumerable.Range(0, change.OldCount).Select(line => new LineChange(change.OldStart + line, 1, change.NewStart + line, 1));

    /// <summary>Lines with what ends them.</summary>
    private static string[] LinesOf(SourceText source) =>
        [.. Enumerable.Range(1, source.LineCount).Select(line => source.Text[StartOf(source, line)..StartOf(source, line + 1)])];

    private static TextEdit EditOf(SourceText source, LineChange change, string[] @new)
    {
        var span = TextSpan.FromBounds(StartOf(source, change.OldStart + 1), StartOf(source, change.OldEnd + 1));
        return new TextEdit(new Location(source, span), string.Concat(@new[change.NewStart..change.NewEnd]));
    }

    private static int StartOf(SourceText source, int line) => line > source.LineCount ? source.Text.Length : source.LineSpan(line).Start;
}
