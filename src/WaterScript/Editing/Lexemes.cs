using System.Collections.Immutable;
using WaterScript.Syntax.Generated;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Editing;

/// <summary>A word, number or sign as it is written, whether it can be read or not.</summary>
/// <param name="Type">Its type in the grammar.</param>
/// <param name="Span">Where it stands.</param>
/// <param name="Text">As written.</param>
internal readonly record struct Lexeme(int Type, TextSpan Span, string Text)
{
    /// <summary>Whether it is a word, of the language or not.</summary>
    public bool IsWord => Syntax.Words.IsWord(Type);

    /// <summary>Whether a statement ends with it: the end of a line, or a semicolon.</summary>
    public bool IsEnd => Type == WaterScriptLexer.NEWLINE;

    /// <summary>Whether it opens a block.</summary>
    public bool IsOpen => Type == WaterScriptLexer.LBRACE;

    /// <summary>Whether it closes a block.</summary>
    public bool IsClose => Type == WaterScriptLexer.RBRACE;

    /// <summary>Whether it is a comment.</summary>
    public bool IsComment => Type == WaterScriptLexer.COMMENT;

    /// <summary>What it looks like.</summary>
    public TokenKind Kind => Kinds.Of(Type);
}

/// <summary>Text to words, numbers and signs, all of them, in order.</summary>
internal static class Lexemes
{
    /// <summary>Those of a text.</summary>
    public static ImmutableArray<Lexeme> Of(SourceText source)
    {
        ArgumentNullException.ThrowIfNull(source);
        var lexemes = ImmutableArray.CreateBuilder<Lexeme>();
        for (var scanner = new Scanner(source.Text); scanner.MoveNext();) lexemes.Add(new Lexeme(scanner.Type, scanner.Span, scanner.Text));
        return lexemes.DrainToImmutable();
    }

    /// <summary>The index of the first that ends after an offset, or the number of all.</summary>
    public static int IndexAt(ImmutableArray<Lexeme> lexemes, int offset)
    {
        var (low, high) = (0, lexemes.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (lexemes[middle].Span.End > offset) high = middle;
            else low = middle + 1;
        }

        return low;
    }
}
