namespace WaterScript.Fuzz.Mutation;

/// <summary>A statement with all that its braces hold, by its place in a text.</summary>
/// <param name="Source">The text.</param>
/// <param name="Start">Its first letter.</param>
/// <param name="End">The letter after its last.</param>
/// <param name="Depth">How many blocks it stands in.</param>
/// <param name="Body">The letter after its brace; -1 where it has none.</param>
internal sealed record Statement(string Source, int Start, int End, int Depth, int Body)
{
    /// <summary>All of it.</summary>
    public string Text => Source[Start..End];

    /// <summary>Its first word, which says what kind it is.</summary>
    public string Head => new([.. Text.TakeWhile(letter => char.IsAsciiLetter(letter) || letter == '-')]);
}

/// <summary>The statements of a text, found by braces and line ends alone, so that it works on broken texts and shares nothing with the parser.</summary>
internal static class Outline
{
    private const int MostDepth = 60;

    /// <summary>All statements, in order of their end.</summary>
    public static List<Statement> Of(string text)
    {
        var found = new List<Statement>();
        var open = new Stack<(int Start, int Body)>();
        var start = -1;
        void End(int at)
        {
            if (start >= 0) found.Add(new Statement(text, start, at, open.Count, -1));
            start = -1;
        }

        for (var at = 0; at < text.Length; at++)
        {
            switch (text[at])
            {
                case '"' when text.IndexOf('"', at + 1) is var close && close > 0 && text.IndexOf('\n', at) is var line && (line < 0 || close < line):
                    if (start < 0) start = at;
                    at = close;
                    break;
                case '#':
                    End(at);
                    at = text.IndexOf('\n', at) is var end && end < 0 ? text.Length : end - 1;
                    break;
                case '{' when open.Count < MostDepth:
                    open.Push((start < 0 ? at : start, at + 1));
                    start = -1;
                    break;
                case '}':
                    End(at);
                    if (open.TryPop(out var block)) found.Add(new Statement(text, block.Start, at + 1, open.Count, block.Body));
                    break;
                case '\n' or ';':
                    End(at);
                    break;
                case var letter when !char.IsWhiteSpace(letter) && start < 0:
                    start = at;
                    break;
            }
        }

        End(text.Length);
        return found;
    }
}
