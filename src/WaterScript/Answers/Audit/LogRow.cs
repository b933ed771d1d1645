using nietras.SeparatedValues;

namespace WaterScript.Answers.Audit;

/// <summary>The cells of one line, as far as columns of the log are used. It is used for one line after the other.</summary>
internal sealed class LogRow
{
    private readonly char _separator;
    private readonly int[] _ends;
    private readonly char[] _line = new char[LogLines.MostLetters];
    private List<string>? _quoted;
    private int _count;

    /// <param name="separator">What stands between cells.</param>
    /// <param name="lastPlace">The last column that is asked for, from 0.</param>
    public LogRow(char separator, int lastPlace) => (_separator, _ends) = (separator, new int[lastPlace + 1]);

    /// <summary>The cell at a place without blanks around it; empty where the row has none, and for a place below 0.</summary>
    public ReadOnlySpan<char> this[int place] => place < 0 || place >= _count
        ? []
        : _quoted is { } quoted ? quoted[place].AsSpan().Trim() : _line.AsSpan(place == 0 ? 0 : _ends[place - 1] + 1, Length(place)).Trim();

    /// <summary>Takes the cells of a line; false where its quotes do not match.</summary>
    public bool TryRead(ReadOnlySpan<char> line)
    {
        _quoted = null;
        if (line.Contains('"'))
        {
            _quoted = Quoted(line, _separator);
            _count = _quoted?.Count ?? 0;
            return _quoted is not null;
        }

        line.CopyTo(_line);
        var start = 0;
        for (_count = 0; _count < _ends.Length && start <= line.Length; _count++)
        {
            var end = line[start..].IndexOf(_separator);
            _ends[_count] = end < 0 ? line.Length : start + end;
            start = _ends[_count] + 1;
        }

        return true;
    }

    /// <summary>All cells of a line; null where its quotes do not match.</summary>
    public static List<string>? CellsOf(ReadOnlySpan<char> line, char separator) =>
        line.Contains('"') ? Quoted(line, separator) : [.. line.ToString().Split(separator)];

    /// <summary>Each line is read for itself, so that quotes left open in one take no other with them.</summary>
    private static List<string>? Quoted(ReadOnlySpan<char> line, char separator)
    {
        if (line.Count('"') % 2 == 1) return null;
        using var reader = Sep.New(separator).Reader(options => options with { HasHeader = false, Unescape = true, DisableColCountCheck = true })
            .FromText(line.ToString());
        var cells = new List<string>();
        foreach (var row in reader)
        {
            for (var column = 0; column < row.ColCount; column++) cells.Add(row[column].ToString());
        }

        return cells;
    }

    private int Length(int place) => _ends[place] - (place == 0 ? 0 : _ends[place - 1] + 1);
}
