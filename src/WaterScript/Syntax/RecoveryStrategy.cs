using Antlr4.Runtime;
using WaterScript.Syntax.Generated;
using WaterScript.Syntax.Tokens;

namespace WaterScript.Syntax;

/// <summary>
/// Gives up a statement at its first mistake: up to the end of its line or to a brace, and never further. Nothing is
/// inserted or taken out by guess, so that one mistake is one finding.
/// </summary>
internal sealed class RecoveryStrategy : IAntlrErrorStrategy
{
    private const int MostExpected = 6;

    private bool _recovering;

    /// <inheritdoc/>
    public void Reset(Antlr4.Runtime.Parser recognizer) => _recovering = false;

    /// <inheritdoc/>
    public bool InErrorRecoveryMode(Antlr4.Runtime.Parser recognizer) => _recovering;

    /// <inheritdoc/>
    public void ReportMatch(Antlr4.Runtime.Parser recognizer) => _recovering = false;

    /// <inheritdoc/>
    public IToken RecoverInline(Antlr4.Runtime.Parser recognizer) => throw new InputMismatchException(recognizer);

    /// <inheritdoc/>
    public void Sync(Antlr4.Runtime.Parser recognizer)
    {
    }

    /// <inheritdoc/>
    public void ReportError(Antlr4.Runtime.Parser recognizer, RecognitionException e)
    {
        if (_recovering) return;
        _recovering = true;
        var token = e.OffendingToken;
        ((TreeBuilder)recognizer).LacksBlock = token.Type is WaterScriptLexer.NEWLINE or TokenConstants.EOF
            && e.GetExpectedTokens()?.Contains(WaterScriptLexer.LBRACE) == true;
        if (((ITokenStream)recognizer.InputStream).LT(-1)?.Type is WaterScriptLexer.SEQUENCE or WaterScriptLexer.SCHEDULE)
            ((TreeBuilder)recognizer).Mistakes.UnreadNames.Add(token.Text);
        if (LabelBeforeName((ITokenStream)recognizer.InputStream) is { } name)
            ((TreeBuilder)recognizer).Mistakes.LabelBeforeName(token.Span(), name.Span());
        else if (token.Type is not (WaterScriptLexer.GLUED or WaterScriptLexer.MALFORMED or WaterScriptLexer.OTHER))
            ((TreeBuilder)recognizer).Mistakes.Unexpected(token, Expected(e, recognizer), RemedyFor(token, e, recognizer));
    }

    /// <summary>The name after a label that stands where the name should: <c>schedule "Evening" evening</c>. Null where it is something else.</summary>
    private static IToken? LabelBeforeName(ITokenStream tokens) =>
        tokens.LT(-1)?.Type is WaterScriptLexer.SCHEDULE or WaterScriptLexer.SEQUENCE or WaterScriptLexer.RESTRICTION or WaterScriptLexer.GROUP
        && tokens.LT(1).Type == WaterScriptLexer.STRING && Language.Names.IsWellFormed(tokens.LT(2).Text)
            ? tokens.LT(2)
            : null;

    private static Suggestion RemedyFor(IToken token, RecognitionException e, Antlr4.Runtime.Parser recognizer) => Suggestion.For(
        (ITokenStream)recognizer.InputStream,
        type => e.GetExpectedTokens()?.Contains(type) == true,
        MissingWord.Before(token, e.OffendingState, recognizer));

    /// <summary>What could stand there, in words; nothing when that is a name or one of many words.</summary>
    private static string Expected(RecognitionException e, Antlr4.Runtime.Parser recognizer)
    {
        var types = e.GetExpectedTokens()?.ToArray() ?? [];
        if (types.Length is 0 or > MostExpected) return "";
        var words = types.Select(type => InWords(type, recognizer.Vocabulary)).OrderBy(word => !word.StartsWith("a ", StringComparison.Ordinal)).ToList();
        return string.Join(" or ", words.Where(word => !words.Any(one => word.Trim('`') == one.Trim('`') + "s" || word.Trim('`') == one.Trim('`') + "es")));
    }

    private static string InWords(int type, IVocabulary vocabulary) => type switch
    {
        WaterScriptLexer.NUMBER => "a number",
        WaterScriptLexer.DATE => "a date",
        WaterScriptLexer.CLOCK => "a time of day",
        WaterScriptLexer.STRING => "a text in quotes",
        WaterScriptLexer.NEWLINE or TokenConstants.EOF => "the end of the line",
        _ => vocabulary.GetLiteralName(type) is { } literal ? $"`{literal.Trim('\'')}`" : vocabulary.GetSymbolicName(type).ToLowerInvariant(),
    };

    /// <inheritdoc/>
    public void Recover(Antlr4.Runtime.Parser recognizer, RecognitionException e)
    {
        while (recognizer.CurrentToken.Type is not (WaterScriptLexer.NEWLINE or WaterScriptLexer.LBRACE or WaterScriptLexer.RBRACE or TokenConstants.EOF))
            ((ITokenStream)recognizer.InputStream).Consume();
    }
}
