using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Text;

namespace WaterScript.Syntax.Tokens;

/// <summary>
/// A place where a merge left both versions of some lines. The first version is read, so that the rest of the file is checked as it stands; the markers
/// and the other versions are not, and all of it is one finding.
/// </summary>
/// <param name="source">The file.</param>
/// <param name="lines">The marker lines, from 1: where it begins, perhaps what both came from, the middle, the end.</param>
internal sealed class MergeConflict(SourceText source, ImmutableArray<int> lines)
{
    private const int MarkerLength = 7;
    private const int LongestLabel = 45;

    /// <summary>All of a file, in order.</summary>
    public static ImmutableArray<MergeConflict> In(SourceText source)
    {
        ArgumentNullException.ThrowIfNull(source);
        if (!source.Text.Contains("<<<<<<<", StringComparison.Ordinal)) return [];
        var found = ImmutableArray.CreateBuilder<MergeConflict>();
        var open = new List<int>(4);
        for (var line = 1; line <= source.LineCount; line++)
        {
            var marker = MarkerOf(source, line);
            if (marker == '<') open.Clear();
            if (marker == '<' || (marker is '|' or '=' or '>' && open.Count > 0)) open.Add(line);
            if (marker != '>' || open.Count == 0) continue;
            if (open.Exists(other => MarkerOf(source, other) == '=')) found.Add(new MergeConflict(source, [.. open]));
            open.Clear();
        }

        return found.DrainToImmutable();
    }

    /// <summary>Whether what stands at an offset is not read.</summary>
    public bool Drops(int offset) =>
        source.LineSpan(lines[0]) is var first && offset >= first.Start && offset < source.LineSpan(lines[^1]).End + LineEnd
            && source.PositionOf(offset).Line is var line && (line == lines[0] || (line >= lines[1] && line <= lines[^1]));

    /// <summary>What is reported.</summary>
    public Finding Finding =>
        Finding.At(ReadingRules.Syntax, At(lines[0]), $"unfinished merge, lines {lines[0]} to {lines[^1]}", Words(lines[0], lines[1] - 1)) with
        {
            Others = [new Label(At(lines[^1]), Words(lines[^1], lines[^1] - 1))],
            Help = $"Keep one side, and delete the {(lines.Length == 3 ? "three" : "four")} marker lines.",
        };

    /// <summary>The characters that may end a line.</summary>
    private const int LineEnd = 2;

    private static char? MarkerOf(SourceText source, int line)
    {
        var text = source.Text.AsSpan(source.LineSpan(line).Start, source.LineSpan(line).Length);
        if (text.Length < MarkerLength || text[0] is not ('<' or '|' or '=' or '>')) return null;
        return text[..MarkerLength].IndexOfAnyExcept(text[0]) < 0 && (text.Length == MarkerLength || text[MarkerLength] == ' ') ? text[0] : null;
    }

    private Location At(int line) => new(source, source.LineSpan(line));

    /// <summary>The name of a side, and what it is: <c>summer: `start at 21:00`</c>.</summary>
    /// <param name="marker">The marker that names the side.</param>
    /// <param name="last">The last line of the side.</param>
    private string Words(int marker, int last)
    {
        var first = marker == lines[0] ? marker + 1 : lines[^2] + 1;
        var name = source.Slice(source.LineSpan(marker))[MarkerLength..].Trim();
        var text = last < first ? "nothing" : last > first ? Count(last - first + 1) : $"`{source.Slice(source.LineSpan(first)).Trim()}`";
        var words = name.Length == 0 ? text : $"{name}: {text}";
        return words.Length <= LongestLabel ? words : last < first ? text : Count(last - first + 1);
    }

    private static string Count(int lines) => $"{lines} {(lines == 1 ? "line" : "lines")}";
}
