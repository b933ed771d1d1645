using Antlr4.Runtime;
using WaterScript.Diagnostics;
using WaterScript.Syntax.Generated;
using WaterScript.Text;

namespace WaterScript.Syntax;

/// <summary>
/// Gives up a statement at its first mistake: up to the end of its line or to a brace, and never further. Nothing is
/// inserted or taken out by guess, so that one mistake is one finding.
/// </summary>
internal sealed class RecoveryStrategy : IAntlrErrorStrategy
{
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
        var builder = (TreeBuilder)recognizer;
        var token = e.OffendingToken;
        builder.Mistakes.Add(Finding.At(
            Rules.Syntax,
            new Location(builder.Source, TextSpan.FromBounds(token.StartIndex, token.StopIndex + 1)),
            $"\"{token.Text}\" unexpected, expecting {e.GetExpectedTokens()?.ToString(recognizer.Vocabulary)}"));
    }

    /// <inheritdoc/>
    public void Recover(Antlr4.Runtime.Parser recognizer, RecognitionException e)
    {
        while (recognizer.CurrentToken.Type is not (WaterScriptLexer.NEWLINE or WaterScriptLexer.LBRACE or WaterScriptLexer.RBRACE or TokenConstants.EOF))
            ((ITokenStream)recognizer.InputStream).Consume();
    }
}
