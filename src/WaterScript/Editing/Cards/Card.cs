using System.Collections.Immutable;
using WaterScript.Text;

namespace WaterScript.Editing.Cards;

/// <summary>What is shown when somebody points at a place: one bold line, then a few more. Each is Markdown in which nothing of the file is markup.</summary>
/// <param name="Span">The word, value or statement.</param>
/// <param name="Lines">The first is the title.</param>
internal sealed record Card(TextSpan Span, ImmutableArray<string> Lines)
{
    /// <summary>More than these are not read.</summary>
    private const int Most = 7;

    /// <summary>The lines of a card.</summary>
    /// <param name="span">The word, value or statement.</param>
    /// <param name="title">What it is, which is bold.</param>
    /// <param name="after">What stands behind that.</param>
    /// <param name="lines">The others; what is empty or null is left out.</param>
    public static Card Of(TextSpan span, string title, string after, params IEnumerable<string?> lines)
    {
        var first = $"**{Text.Lines.MarkdownLines.Escaped(title)}**{Text.Lines.MarkdownLines.Escaped("x" + after)[1..]}";
        return new Card(span, [.. lines.Where(line => !string.IsNullOrEmpty(line)).Select(line => Text.Lines.MarkdownLines.Escaped(line!)).Prepend(first)
            .Take(Most)]);
    }

    /// <summary>All of it, a line a line.</summary>
    public string Markdown => string.Join("  \n", Lines);
}
