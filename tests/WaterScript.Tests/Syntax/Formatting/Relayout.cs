using System.Text;
using Antlr4.Runtime;
using WaterScript.Syntax.Generated;

namespace WaterScript.Tests.Syntax.Formatting;

/// <summary>
/// Writes a text again with other blanks, line ends and semicolons, the same ones for the same number. What the layout takes from
/// the text stays: which blocks begin on the line of their brace, where there are blank lines, and which comments follow a word on its line.
/// </summary>
internal sealed class Relayout
{
    private readonly Random _random;
    private readonly bool _addsComments;
    private readonly StringBuilder _text = new();
    private int _comments;

    private Relayout(int number, bool addsComments) => (_random, _addsComments) = (new Random(number), addsComments);

    /// <summary>The text in another layout.</summary>
    public static string Of(string text, int number) => new Relayout(number, addsComments: false).Write(text);

    /// <summary>The text in another layout, with comments wherever there may be some.</summary>
    public static string WithComments(string text, int number) => new Relayout(number, addsComments: true).Write(text);

    private string Write(string text)
    {
        LineEnds(_random.Next(2));
        IToken? before = null;
        var (ends, semicolons) = (0, 0);
        foreach (var token in RawTokens.Of(text))
        {
            if (token.Type == WaterScriptLexer.NEWLINE)
            {
                if (token.Text == ";") semicolons++;
                else ends++;
                continue;
            }

            if (before is not null) Gap(before, token, ends, semicolons);
            _text.Append(token.Text);
            (before, ends, semicolons) = (token, 0, 0);
        }

        LineEnds(before?.Type == WaterScriptLexer.COMMENT ? 1 : _random.Next(3));
        return _text.ToString();
    }

    private void Gap(IToken before, IToken after, int ends, int semicolons)
    {
        var goesOn = before.Type is WaterScriptLexer.COMMA or WaterScriptLexer.PLUS or WaterScriptLexer.EQUALS;
        if (after.Type == WaterScriptLexer.COMMENT && ends == 0) Blanks(0);
        else if (before.Type == WaterScriptLexer.LBRACE) Opening(ends);
        else if (after.Type == WaterScriptLexer.LBRACE && before.Type != WaterScriptLexer.COMMENT) LineEnds(_random.Next(3));
        else if (goesOn) LineEnds(after.Type == WaterScriptLexer.COMMENT ? 1 + _random.Next(3) : _random.Next(3), atLeast: 1);
        else if (ends + semicolons == 0 && after.Type != WaterScriptLexer.RBRACE) Blanks(after.Type == WaterScriptLexer.COMMA ? 0 : 1);
        else if (after.Type == WaterScriptLexer.RBRACE) Closing(before);
        else StatementEnd(isFree: before.Type != WaterScriptLexer.COMMENT && after.Type != WaterScriptLexer.COMMENT, ends);
    }

    private void Opening(int ends)
    {
        if (ends > 0) LineEnds(1 + _random.Next(3));
        else Blanks(0);
    }

    private void Closing(IToken before)
    {
        if (_random.Next(3) == 0 && before.Type != WaterScriptLexer.COMMENT) _text.Append(';');
        LineEnds(before.Type == WaterScriptLexer.COMMENT ? 1 + _random.Next(2) : _random.Next(3));
    }

    private void StatementEnd(bool isFree, int ends)
    {
        if (isFree && ends < 2 && _random.Next(2) == 0)
        {
            Blanks(0);
            _text.Append(_random.Next(3) == 0 ? ";;" : ";");
            if (_random.Next(2) == 0) LineEnds(1);
            else Blanks(0);
            return;
        }

        if (isFree && _random.Next(4) == 0) _text.Append(" ;");
        LineEnds(ends < 2 ? 1 : 2 + _random.Next(2));
    }

    private void LineEnds(int count, int atLeast = 0)
    {
        Blanks(atLeast);
        for (var i = 0; i < count; i++)
        {
            if (_addsComments && _random.Next(3) == 0) _text.Append(System.Globalization.CultureInfo.InvariantCulture, $"# added {++_comments}  ");
            _text.Append('\n');
            Blanks(0);
        }
    }

    private void Blanks(int atLeast)
    {
        for (var count = atLeast + _random.Next(3); count > 0; count--) _text.Append(_random.Next(4) == 0 ? '\t' : ' ');
    }
}
