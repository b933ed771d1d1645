using System.Globalization;
using System.Text;

namespace WaterScript.Text;

/// <summary>
/// A line of text as a terminal can show it: a tab becomes one space, and whatever would steer the terminal or
/// turn the direction of reading is shown by its name instead. It knows the column of each character.
/// </summary>
internal sealed class DisplayLine
{
    private readonly List<Cell> _cells = [];
    private readonly int _length;

    private DisplayLine(ReadOnlySpan<char> line)
    {
        _length = line.Length;
        var offset = 0;
        while (offset < line.Length)
        {
            var length = StringInfo.GetNextTextElementLength(line[offset..]);
            Add(offset, length, line);
            offset += length;
        }
    }

    /// <summary>Columns of the whole line.</summary>
    public int Width { get; private set; }

    /// <summary>Reads a line without the characters that end it.</summary>
    public static DisplayLine Of(ReadOnlySpan<char> line) => new(line);

    /// <summary>A text as it can be shown; line ends stay.</summary>
    public static string Clean(string text) => HiddenCharacter.MayBeIn(text) ? string.Join('\n', text.Split('\n').Select(CleanLine)) : text;

    /// <summary>A text as it can be shown on one line: a line end is shown by its name too.</summary>
    public static string CleanLine(string text)
    {
        if (!HiddenCharacter.MayBeIn(text)) return text;
        var shown = Of(text);
        return shown.Slice(0, shown.Width);
    }

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

    /// <summary>Adds one character as people see it; what it hides follows it by name.</summary>
    private void Add(int offset, int length, ReadOnlySpan<char> line)
    {
        var character = line.Slice(offset, length);
        if (character is "\t")
        {
            Add(offset, " ", names: "");
            return;
        }

        var (seen, names) = (new StringBuilder(length), "");
        for (var i = offset; i < offset + length;)
        {
            Rune.DecodeFromUtf16(line[i..], out var rune, out var units);
            if (HiddenCharacter.IsNamed(rune, Last(line[..i]), First(line[(i + units)..]))) names += HiddenCharacter.NameOf(rune);
            else seen.Append(rune.ToString());
            i += units;
        }

        Add(offset, seen.ToString(), names);
    }

    private void Add(int offset, string seen, string names)
    {
        var (shown, width) = (seen + names, DisplayWidth.Of(seen) + names.Length);
        _cells.Add(new Cell(offset, shown, Width, width));
        Width += width;
    }

    private static Rune First(ReadOnlySpan<char> text)
    {
        Rune.DecodeFromUtf16(text, out var rune, out _);
        return rune;
    }

    private static Rune Last(ReadOnlySpan<char> text)
    {
        Rune.DecodeLastFromUtf16(text, out var rune, out _);
        return rune;
    }

    private readonly record struct Cell(int Offset, string Text, int Column, int Width);
}
