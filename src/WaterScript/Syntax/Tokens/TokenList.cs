using Antlr4.Runtime;
using Antlr4.Runtime.Misc;
using WaterScript.Syntax.Generated;
using WaterScript.Text;

namespace WaterScript.Syntax.Tokens;

/// <summary>The tokens of a file as the parser walks over them: a list, because all of them are known before it starts.</summary>
internal sealed class TokenList(List<IToken> tokens) : ITokenStream
{
    public int Index { get; private set; }

    public int Size => tokens.Count;

    public string SourceName => "";

    public ITokenSource TokenSource => throw new NotSupportedException("No token is made while the parser runs.");

    public IToken LT(int k)
    {
        var index = k < 0 ? Index + k : Index + k - 1;
        return index < 0 ? null! : tokens[Math.Min(index, tokens.Count - 1)];
    }

    public int LA(int i) => LT(i).Type;

    public void Consume()
    {
        if (Index < tokens.Count - 1) Index++;
    }

    public void Seek(int index) => Index = index;

    /// <summary>Where the labels stand.</summary>
    public List<TextSpan> Labels() =>
        [.. tokens.Where(token => token.Type == WaterScriptLexer.STRING).Select(token => token.Span())];

    public IToken Get(int i) => tokens[i];

    public int Mark() => 0;

    public void Release(int marker)
    {
    }

    public string GetText(Interval interval) =>
        string.Concat(tokens.Skip(interval.a).Take(interval.Length).Select(token => token.Text));

    public string GetText() => GetText(Interval.Of(0, Size - 1));

    public string GetText(RuleContext ctx) => GetText(ctx.SourceInterval);

    public string GetText(IToken start, IToken stop) => GetText(Interval.Of(start.TokenIndex, stop.TokenIndex));
}
