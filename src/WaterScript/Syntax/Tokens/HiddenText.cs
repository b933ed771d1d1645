using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Text;

namespace WaterScript.Syntax.Tokens;

/// <summary>Finds characters that cannot be seen, or that make a line look otherwise than it runs.</summary>
internal static class HiddenText
{
    /// <summary>Reports them, one finding a line. In a label only those that turn the reading direction are forbidden.</summary>
    /// <param name="source">The file.</param>
    /// <param name="labels">Where its labels are, in order.</param>
    /// <param name="mistakes">Takes the findings.</param>
    public static void Find(SourceText source, IReadOnlyList<TextSpan> labels, Mistakes mistakes)
    {
        var text = source.Text;
        var label = 0;
        var found = new List<int>();
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] is '\n' or '\r') Report(found, source, mistakes);
            if (!IsHidden(text[i])) continue;
            while (label < labels.Count && labels[label].End <= i) label++;
            var inLabel = label < labels.Count && labels[label].Start <= i;
            if (!inLabel || TurnsDirection(text[i])) found.Add(i);
        }

        Report(found, source, mistakes);
    }

    private static void Report(List<int> found, SourceText source, Mistakes mistakes)
    {
        if (found.Count == 0) return;
        var edits = found.Select(i => new TextEdit(At(i), Replacement(source.Text[i]))).ToImmutableArray();
        var first = source.Text[found[0]];
        mistakes.Add(new Finding(ReadingRules.HiddenText, $"a hidden character: {Name(first)}", new Label(At(found[0]), "here, though it cannot be seen"))
        {
            Others = [.. found.Skip(1).Select(i => new Label(At(i), Name(source.Text[i])))],
            Details = TurnsDirection(first)
                ? "It can make a line look otherwise than it runs."
                : "It often comes along when text is copied from a page or a chat.",
            Help = first == '\u00A0' ? "Type a plain space in its place." : "Delete it.",
            Fix = new Fix(found.Count == 1 ? "take it out" : "take them out", IsSafe: true, edits),
        });
        found.Clear();

        Location At(int offset) => new(source, new TextSpan(offset, 1));
    }

    private static bool IsHidden(char c) => c > '~'
        ? char.GetUnicodeCategory(c) is UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.SpaceSeparator
            or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator
        : c < ' ' && c is not ('\t' or '\n' or '\r');

    private static bool TurnsDirection(char c) => c is (>= '\u202A' and <= '\u202E') or (>= '\u2066' and <= '\u2069');

    private static string Replacement(char c) => char.IsWhiteSpace(c) ? " " : "";

    private static string Name(char c) => c switch
    {
        '\u00A0' => "a no-break space (U+00A0)",
        '\u202F' => "a narrow no-break space (U+202F)",
        '\u200B' => "a zero-width space (U+200B)",
        '\u200C' or '\u200D' => $"a zero-width joiner ({Code(c)})",
        '\u200E' or '\u200F' or '\u061C' => $"a mark of reading direction ({Code(c)})",
        '\u00AD' => "a soft hyphen (U+00AD)",
        '\uFEFF' => "a byte-order mark in the middle of the text (U+FEFF)",
        _ when TurnsDirection(c) => $"one that turns the reading direction ({Code(c)})",
        _ when char.IsWhiteSpace(c) => $"a space that is no plain space ({Code(c)})",
        _ => $"a control character ({Code(c)})",
    };

    private static string Code(char c) => string.Create(CultureInfo.InvariantCulture, $"U+{(int)c:X4}");
}
