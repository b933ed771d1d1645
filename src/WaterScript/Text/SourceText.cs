namespace WaterScript.Text;

/// <summary>The text of one file, with its lines. LF, CR LF and a lone CR each end a line.</summary>
internal sealed class SourceText
{
    /// <summary>U+FEFF, which may stand at the start of a file.</summary>
    internal const char ByteOrderMark = '\uFEFF';

    private readonly int[] _lineStarts;

    private SourceText(string path, string text, bool hasByteOrderMark)
    {
        Path = path;
        Text = text;
        HasByteOrderMark = hasByteOrderMark;
        _lineStarts = FindLineStarts(text);
    }

    /// <summary>The path as findings show it, with <c>/</c> between folders; <c>-</c> for standard input.</summary>
    public string Path { get; }

    /// <summary>The whole text, without a byte-order mark; every <see cref="TextSpan"/> counts in it.</summary>
    public string Text { get; }

    /// <summary>Whether the file began with a byte-order mark, so that it can be written back as it was.</summary>
    public bool HasByteOrderMark { get; }

    /// <summary>Number of lines, at least 1.</summary>
    public int LineCount => _lineStarts.Length;

    /// <summary>Makes a source from decoded text; a byte-order mark at its start is taken off.</summary>
    public static SourceText From(string path, string text)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentNullException.ThrowIfNull(text);
        var marked = text.Length > 0 && text[0] == ByteOrderMark;
        return new SourceText(path, marked ? text[1..] : text, marked);
    }

    /// <summary>The text under a span.</summary>
    public string Slice(TextSpan span) => Text.Substring(span.Start, span.Length);

    /// <summary>Line and column of an offset from 0 to the length of the text.</summary>
    public LinePosition PositionOf(int offset)
    {
        var index = Array.BinarySearch(_lineStarts, offset);
        var line = index >= 0 ? index : ~index - 1;
        return new LinePosition(line + 1, offset - _lineStarts[line] + 1);
    }

    /// <summary>The span of a line, from 1 to <see cref="LineCount"/>, without the characters that end it.</summary>
    public TextSpan LineSpan(int line)
    {
        var start = _lineStarts[line - 1];
        var end = line < _lineStarts.Length ? _lineStarts[line] : Text.Length;
        while (end > start && Text[end - 1] is '\n' or '\r') end--;
        return TextSpan.FromBounds(start, end);
    }

    private static int[] FindLineStarts(string text)
    {
        var starts = new List<int> { 0 };
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\r' && i + 1 < text.Length && text[i + 1] == '\n') continue;
            if (text[i] is '\n' or '\r') starts.Add(i + 1);
        }

        return [.. starts];
    }
}
