using WaterScript.Text;

namespace WaterScript.Syntax.Tokens;

/// <summary>What a token looks like. What it means is for whoever reads the row that it stands in.</summary>
internal enum TokenKind
{
    /// <summary>A word, keyword or not, or a name: <c>water</c>, <c>min</c>, <c>L</c>, <c>north-bed</c>.</summary>
    Word,

    /// <summary>Words with a stroke between them: a unit or a time zone, <c>L/min</c>, <c>Europe/Lisbon</c>.</summary>
    Path,

    /// <summary>A number with a decimal point or without.</summary>
    Number,

    /// <summary><c>2026-05-01</c>; may name a day that does not exist.</summary>
    Date,

    /// <summary><c>06:00</c> or <c>06:00:30</c>; may name a time that does not exist.</summary>
    Clock,

    /// <summary>A number with letters after it: <c>18min</c>, <c>3x</c>.</summary>
    Glued,

    /// <summary>A slip that starts like a number: <c>1/5/2026</c>, <c>06:00-09:00</c>.</summary>
    Malformed,

    /// <summary>A label with its quotes.</summary>
    String,

    /// <summary><c>,</c></summary>
    Comma,

    /// <summary><c>+</c></summary>
    Plus,

    /// <summary><c>-</c>, or a typographic minus, between spaces or before a number.</summary>
    Minus,

    /// <summary><c>=</c></summary>
    EqualsSign,

    /// <summary><c>%</c></summary>
    Percent,

    /// <summary>Any other character.</summary>
    Other,
}

/// <summary>A token of a row.</summary>
/// <param name="Kind">What it looks like.</param>
/// <param name="Span">Where it stands.</param>
/// <param name="Text">As written; for a <see cref="TokenKind.String"/> with its quotes.</param>
internal readonly record struct Token(TokenKind Kind, TextSpan Span, string Text);
