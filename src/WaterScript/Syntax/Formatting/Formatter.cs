using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Text;

namespace WaterScript.Syntax.Formatting;

/// <summary>
/// Gives a file the one layout that all files have. Words and comments stay what and where they are, but for forms that the language
/// understands and writes in another way, which come out in its own.
/// </summary>
internal static class Formatter
{
    private const string Unix = "\n";
    private const string Windows = "\r\n";

    /// <summary>
    /// The file in its layout. Lines end as the first one does, with CR LF or with LF; a byte-order mark stays.
    /// A file that is laid out already comes out as it is.
    /// </summary>
    /// <param name="source">The file.</param>
    /// <param name="findings">Takes what was found while reading it.</param>
    /// <param name="trees">Takes the trees of the file and of its layout, for whoever reads these too; may be null.</param>
    /// <returns>The file, or null where it has an error: then nobody knows how it is meant.</returns>
    public static SourceText? Format(SourceText source, FindingList findings, KnownTrees? trees = null)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(findings);
        var found = new FindingList();
        var pieces = PiecesOf(source, found, trees);
        findings.AddRange(found);
        if (pieces.IsDefault) return null;

        TextEdit[] edits = [.. EditsToUsual(found)];
        if (edits.Length > 0) pieces = PieceList.Of(Edits.Apply(source, edits));
        var formatted = SourceText.From(source.Path,
            (source.HasByteOrderMark ? SourceText.ByteOrderMark.ToString() : "") + TextOf(pieces, LineEndOf(source.Text)));
        var isAsBefore = edits.Length == 0 && formatted.Text == source.Text;
        return isAsBefore || SaysTheSame(pieces, formatted, trees) ? formatted
            : throw new InvalidOperationException($"{source.Path} would not say the same in its layout");
    }

    /// <summary>What gives unusual forms their own. Each has blanks around it: none of them may become one token with what it touches.</summary>
    private static IEnumerable<TextEdit> EditsToUsual(FindingList found) => found
        .Where(finding => finding.Rule == ReadingRules.UnusualForm && finding.Fix is { IsSafe: true })
        .SelectMany(finding => finding.Fix!.Edits)
        .Select(edit => edit with { Replacement = $" {edit.Replacement} " });

    private static string TextOf(ImmutableArray<Piece> pieces, string lineEnd)
    {
        var lines = new LineList();
        new LayoutWriter(lines).WriteFile(new ItemReader(pieces).Read());
        return lines.ToText(lineEnd);
    }

    /// <summary>Whether the laid out file can be read, and has the words and comments of the one before.</summary>
    private static bool SaysTheSame(ImmutableArray<Piece> pieces, SourceText formatted, KnownTrees? trees)
    {
        var written = PiecesOf(formatted, [], trees);
        return !written.IsDefault && PieceList.SaysTheSame(pieces, written);
    }

    /// <summary>Reads a file.</summary>
    /// <param name="source">The file.</param>
    /// <param name="found">Takes what is found; there is nothing in it yet.</param>
    /// <param name="trees">Takes its tree; may be null.</param>
    /// <returns>Its pieces; default where it has an error.</returns>
    private static ImmutableArray<Piece> PiecesOf(SourceText source, FindingList found, KnownTrees? trees)
    {
        var (file, tokens) = Parser.Read(source, found);
        trees?.Add(file, found);
        return found.HasErrors || tokens is null ? default : PieceList.Of(source, tokens, file.Comments);
    }

    private static string LineEndOf(string text)
    {
        var first = text.AsSpan().IndexOfAny('\n', '\r');
        return first >= 0 && text.AsSpan(first).StartsWith(Windows, StringComparison.Ordinal) ? Windows : Unix;
    }
}
