using System.Collections.Immutable;
using WaterScript.Text;

namespace WaterScript.Diagnostics;

/// <summary>A change to the source that fixes a finding.</summary>
/// <param name="Title">What it does, as an imperative: <c>write 18 min</c>.</param>
/// <param name="IsSafe">Whether it leaves the watering as it was meant, so that <c>--fix</c> applies it unasked.</param>
/// <param name="Edits">Replacements that do not overlap, in order of place.</param>
internal sealed record Fix(string Title, bool IsSafe, ImmutableArray<TextEdit> Edits)
{
    /// <summary>A safe fix of one replacement.</summary>
    public static Fix Safe(string title, Location location, string replacement) =>
        new(title, IsSafe: true, [new TextEdit(location, replacement)]);

    /// <summary>A word in place of one that is near it: safe where it can only have been that one; two in place of one are never.</summary>
    /// <param name="location">The word as written.</param>
    /// <param name="nearest">The word that is offered.</param>
    /// <param name="words">All words that there are.</param>
    public static Fix Spelt(Location location, string nearest, IEnumerable<string> words) =>
        new($"write `{nearest}`", !nearest.Contains(' ', StringComparison.Ordinal) && Spelling.IsCertain(location.Text, nearest, words),
            [new TextEdit(location, nearest)]);

    /// <summary>A safe fix that deletes a statement, with its <c>;</c>, or with its line where nothing else stands on it.</summary>
    public static Fix SafeDeletion(string title, Location location) => Safe(title, location with { Span = Deleted(location) }, "");

    /// <summary>A fix of one replacement that needs a person's yes.</summary>
    public static Fix Unsafe(string title, Location location, string replacement) =>
        new(title, IsSafe: false, [new TextEdit(location, replacement)]);

    private static TextSpan Deleted(Location location)
    {
        var (source, span) = location;
        var (first, last) = (source.LineSpan(location.Start.Line), source.LineSpan(location.End.Line));
        var after = source.Text.AsSpan(span.End, last.End - span.End);
        if (after.TrimStart() is [';', .. var rest]) return TextSpan.FromBounds(span.Start, last.End - rest.TrimStart().Length);
        var isAlone = after.IsWhiteSpace() && source.Text.AsSpan(first.Start, span.Start - first.Start).IsWhiteSpace();
        if (!isAlone) return span;
        return location.End.Line < source.LineCount
            ? TextSpan.FromBounds(first.Start, source.LineSpan(location.End.Line + 1).Start)
            : TextSpan.FromBounds(first.Start, last.End);
    }
}

/// <summary>One replacement.</summary>
/// <param name="Location">What goes; an empty span is an insertion.</param>
/// <param name="Replacement">What comes in its place.</param>
internal sealed record TextEdit(Location Location, string Replacement);
