using System.Text;

namespace WaterScript.Syntax.Formatting;

/// <summary>The lines of a file in its layout. Comments at their ends stand in one column where lines follow each other.</summary>
internal sealed class LineList
{
    private const int CommentColumn = 42;
    private const int CommentGap = 2;
    private readonly List<Line> _lines = [];

    /// <summary>Adds a line.</summary>
    public void Add(string text, string? comment = null) => _lines.Add(new Line(text, comment));

    /// <summary>Adds a blank line.</summary>
    public void AddBlank() => Add("");

    /// <summary>The text, each line ended.</summary>
    public string ToText(string lineEnd)
    {
        var text = new StringBuilder();
        for (var i = 0; i < _lines.Count;)
        {
            var end = EndOfGroup(i);
            var column = CommentColumnOf(i, end);
            for (; i < end; i++) text.Append(_lines[i].At(column)).Append(lineEnd);
        }

        return text.ToString();
    }

    /// <summary>The index after the lines that have comments beside each other; a line without one is alone.</summary>
    private int EndOfGroup(int start)
    {
        var end = start + 1;
        if (_lines[start].Comment is null) return end;
        while (end < _lines.Count && _lines[end].Comment is not null) end++;
        return end;
    }

    private int CommentColumnOf(int start, int end)
    {
        var column = CommentColumn;
        for (var i = start; i < end; i++) column = Math.Max(column, Columns.WidthOf(_lines[i].Text) + CommentGap);
        return column;
    }

    private readonly record struct Line(string Text, string? Comment)
    {
        public string At(int column) => Comment is null ? Text : Columns.Pad(Text, column) + Comment;
    }
}
