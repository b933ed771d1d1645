using System.Globalization;
using System.Text;

namespace WaterScript.Diagnostics;

/// <summary>
/// A line of text as a terminal can show it: tabs become spaces, and whatever would steer the terminal or
/// turn the direction of reading is shown by its name instead. It knows the column of each character.
/// </summary>
internal sealed class DisplayLine
{
    private const int TabStop = 4;
    private readonly List<Cell> _cells = [];
    private readonly int _length;

    private DisplayLine(ReadOnlySpan<char> line)
    {
        _length = line.Length;
        var offset = 0;
        while (offset < line.Length)
        {
            var length = StringInfo.GetNextTextElementLength(line[offset..]);
            Add(offset, line.Slice(offset, length));
            offset += length;
        }
    }

    /// <summary>Columns of the whole line.</summary>
    public int Width { get; private set; }

    /// <summary>Reads a line without the characters that end it.</summary>
    public static DisplayLine Of(ReadOnlySpan<char> line) => new(line);

    /// <summary>A text as it can be shown; line ends stay.</summary>
    public static string Clean(string text) =>
        text.AsSpan().ContainsAnyExceptInRange(' ', '~')
            ? string.Join('\n', text.Split('\n').Select(line => { var shown = Of(line); return shown.Slice(0, shown.Width); }))
            : text;

    /// <summary>The first column, from 0, of the character that an offset lies in; the width for the end of the line.</summary>
    public int ColumnOf(int offset)
    {
        if (offset >= _length) return Width;
        var index = _cells.FindLastIndex(cell => cell.Offset <= offset);
        return _cells[index].Column;
    }

    /// <summary>What is shown between two columns; a character that lies in there only partly is left out.</summary>
    public string Slice(int from, int to)
    {
        var text = new StringBuilder();
        foreach (var cell in _cells)
        {
            if (cell.Column >= from && cell.Column + cell.Width <= to) text.Append(cell.Text);
        }

        return text.ToString();
    }

    private void Add(int offset, ReadOnlySpan<char> character)
    {
        var shown = Shown(character);
        var width = shown is [' ', ..] or ['<', ..] ? shown.Length : DisplayWidth.Of(shown);
        _cells.Add(new Cell(offset, shown, Width, width));
        Width += width;
    }

    private string Shown(ReadOnlySpan<char> character)
    {
        if (character is "\t") return new string(' ', TabStop - (Width % TabStop));
        Rune.DecodeFromUtf16(character, out var first, out _);
        return Rune.GetUnicodeCategory(first) switch
        {
            UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator
                => string.Create(CultureInfo.InvariantCulture, $"<U+{first.Value:X4}>"),
            _ when first == Rune.ReplacementChar => "\uFFFD",
            _ => character.ToString(),
        };
    }

    private readonly record struct Cell(int Offset, string Text, int Column, int Width);
}
