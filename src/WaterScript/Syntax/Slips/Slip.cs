using System.Collections.Immutable;

namespace WaterScript.Syntax.Slips;

/// <summary>A slip of which it is known what was meant, so that the statement is read on as such.</summary>
/// <param name="Heading">What is wrong.</param>
/// <param name="Help">What to do.</param>
/// <param name="IsSafe">Whether nothing else can have been meant.</param>
/// <param name="Parts">What to write in place of what; the finding is at the first.</param>
internal sealed record Slip(string Heading, string Help, bool IsSafe, ImmutableArray<SlipPart> Parts)
{
    /// <summary>Whether there is nothing to write that would do, so that the statement is left out.</summary>
    public bool IsUnread { get; private init; }

    /// <summary>Other words in place of some.</summary>
    public static Slip Written(Phrase phrase, int first, int count, string text, bool isSafe = true, string? help = null) =>
        new(DoesNotBelong(phrase, first), help ?? $"Write `{text}`.", isSafe, [new SlipPart(first, count, text)]);

    /// <summary>A word too many.</summary>
    public static Slip Needless(Phrase phrase, int index) =>
        new(DoesNotBelong(phrase, index), $"Delete `{phrase.Text(index)}`.", IsSafe: true, [new SlipPart(index, 1, "")]);

    /// <summary>A word too few, before a token.</summary>
    public static Slip Missing(Phrase phrase, int before, string text, bool isSafe = true, string? help = null) => new(
        before < phrase.Length ? $"`{text}` is missing before \"{phrase.Text(before)}\"" : $"`{text}` is missing at the end of the line",
        help ?? $"Write `{text}`.", isSafe, [new SlipPart(before, 0, text)]);

    /// <summary>Something to which there is an answer, but nothing to write in its place.</summary>
    public static Slip Answered(Phrase phrase, int first, string help) =>
        new(DoesNotBelong(phrase, first), help, IsSafe: false, [new SlipPart(first, 1, "")]) { IsUnread = true };

    private static string DoesNotBelong(Phrase phrase, int index) => $"\"{phrase.Text(index)}\" does not belong here";
}
