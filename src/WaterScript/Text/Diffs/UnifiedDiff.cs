using System.Globalization;
using WaterScript.Text.Lines;

namespace WaterScript.Text.Diffs;

/// <summary>
/// What changes between two texts, line by line, in the unified form that <c>patch</c> and review tools read (POSIX.1-2017, diff -u). It is shown to
/// people first: in it too every character can be seen.
/// </summary>
internal static class UnifiedDiff
{
    private const int Context = 3;

    /// <summary>Writes the differences, with three lines around each; nothing where there are none.</summary>
    /// <param name="oldName">What the old text is called.</param>
    /// <param name="newName">What the new text is called.</param>
    /// <param name="oldText">The old text; lines end with LF or CR LF.</param>
    /// <param name="newText">The new text.</param>
    /// <param name="output">Where to.</param>
    public static void Write(string oldName, string newName, string oldText, string newText, PlainLines output)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(oldText);
        ArgumentNullException.ThrowIfNull(newText);
        var (old, @new) = (Lines(oldText), Lines(newText));
        var changes = LineChanges.Between(old, @new);
        if (changes.Count == 0) return;
        output.Line($"--- {oldName}");
        output.Line($"+++ {newName}");
        for (var i = 0; i < changes.Count;)
        {
            var end = i + 1;
            while (end < changes.Count && changes[end].OldStart - changes[end - 1].OldEnd <= 2 * Context) end++;
            WriteHunk(output, changes[i..end], old, @new);
            i = end;
        }
    }

    private static void WriteHunk(PlainLines output, List<LineChange> changes, string[] old, string[] @new)
    {
        var before = Math.Min(Context, changes[0].OldStart);
        var after = Math.Min(Context, old.Length - changes[^1].OldEnd);
        var (oldStart, newStart) = (changes[0].OldStart - before, changes[0].NewStart - before);
        var (oldEnd, newEnd) = (changes[^1].OldEnd + after, changes[^1].NewEnd + after);
        output.Line($"@@ -{Range(oldStart, oldEnd)} +{Range(newStart, newEnd)} @@");
        var at = oldStart;
        foreach (var change in changes)
        {
            WriteLines(output, ' ', old[at..change.OldStart]);
            WriteLines(output, '-', old[change.OldStart..change.OldEnd]);
            WriteLines(output, '+', @new[change.NewStart..change.NewEnd]);
            at = change.OldEnd;
        }

        WriteLines(output, ' ', old[at..oldEnd]);
    }

    /// <summary>First line, from 1, and number of lines; where there are none, the line before.</summary>
    private static string Range(int start, int end) => string.Create(CultureInfo.InvariantCulture, $"{(end > start ? start + 1 : start)},{end - start}");

    private static void WriteLines(PlainLines output, char mark, string[] lines)
    {
        foreach (var line in lines)
        {
            output.Marked(mark, line);
            if (!line.EndsWith('\n')) output.Line("\\ No newline at end of file");
        }
    }

    /// <summary>The lines of a text, each with what ends it.</summary>
    private static string[] Lines(string text)
    {
        var lines = new List<string>();
        for (var start = 0; start < text.Length;)
        {
            var end = text.IndexOf('\n', start);
            var next = end < 0 ? text.Length : end + 1;
            lines.Add(text[start..next]);
            start = next;
        }

        return [.. lines];
    }
}
