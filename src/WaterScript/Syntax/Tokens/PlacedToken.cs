using Antlr4.Runtime;
using WaterScript.Text;

namespace WaterScript.Syntax.Tokens;

/// <summary>A token for the parser, with no more than is asked of it: there are six for a line, and nobody reads lines and columns off them.</summary>
/// <param name="type">Its type in the grammar.</param>
/// <param name="span">Where it stands.</param>
/// <param name="text">What it says.</param>
internal sealed class PlacedToken(int type, TextSpan span, string text) : IToken
{
    /// <inheritdoc/>
    public string Text { get; } = text;

    /// <inheritdoc/>
    public int Type { get; } = type;

    /// <inheritdoc/>
    public int StartIndex { get; } = span.Start;

    /// <inheritdoc/>
    public int StopIndex { get; } = span.End - 1;

    /// <summary>Its place among the tokens that are parsed, once it is known.</summary>
    public int TokenIndex { get; set; } = -1;

    int IToken.Line => 0;

    int IToken.Column => -1;

    int IToken.Channel => TokenConstants.DefaultChannel;

    ITokenSource? IToken.TokenSource => null;

    ICharStream? IToken.InputStream => null;
}
