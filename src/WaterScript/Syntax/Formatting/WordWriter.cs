using WaterScript.Syntax.Generated;

namespace WaterScript.Syntax.Formatting;

/// <summary>
/// Writes the words of a statement without a block: on one line, or over several where a list is too long or has comments in it.
/// A line ends only where the language lets a statement go on: behind a comma, or where a comment did so.
/// </summary>
/// <param name="lines">Takes the lines.</param>
/// <param name="statement">The statement.</param>
/// <param name="indent">Before its first line; those after it stand further in.</param>
/// <param name="width">Columns of a line.</param>
internal sealed class WordWriter(LineList lines, StatementItem statement, string indent, int width)
{
    private readonly string _further = indent + "  ";
    private string _line = "";

    private bool IsLineEmpty => _line == _further;

    /// <summary>Writes the words from an index on.</summary>
    /// <param name="index">The first word that is not yet in <paramref name="line"/>.</param>
    /// <param name="line">What the first line begins with, with the blanks before the word.</param>
    public void Write(int index, string line)
    {
        var words = statement.Words.AsSpan();
        _line = line;
        while (index < words.Length)
        {
            if (words[index].IsComment)
            {
                WriteComment(words[index], isAtEnd: words[index].Line == words[index - 1].Line);
                index++;
                continue;
            }

            var end = EndOfPart(words, index);
            Add(Spacing.Join(words[index..end]), canBreak: index > 0 && words[index - 1].Type == WaterScriptLexer.COMMA);
            index = end;
        }

        if (GoesOnAtEnd()) _line = (IsLineEmpty ? _line : _line.TrimEnd()) + ";";
        EndLine(statement.Comment);
    }

    /// <summary>Whether the last word would let the statement go on over the end of the line, so that a <c>;</c> has to end it.</summary>
    private bool GoesOnAtEnd()
    {
        var last = statement.Words.Length - 1;
        while (last >= 0 && statement.Words[last].IsComment) last--;
        return last >= 0 && statement.Words[last].GoesOn;
    }

    /// <summary>The index after the next comma, or before the next comment.</summary>
    private static int EndOfPart(ReadOnlySpan<Piece> words, int start)
    {
        var end = start + 1;
        while (end < words.Length && words[end - 1].Type != WaterScriptLexer.COMMA && !words[end].IsComment) end++;
        return end;
    }

    private void Add(string part, bool canBreak)
    {
        if (canBreak && !IsLineEmpty && Columns.WidthOf(_line) + Columns.WidthOf(part) > width) EndLine(null);
        _line += part + " ";
    }

    private void WriteComment(Piece comment, bool isAtEnd)
    {
        if (isAtEnd)
        {
            EndLine(comment.Text);
            return;
        }

        if (!IsLineEmpty) EndLine(null);
        lines.Add(_further + comment.Text);
    }

    private void EndLine(string? comment)
    {
        lines.Add(_line.TrimEnd(), comment);
        _line = _further;
    }
}
