namespace WaterScript.Documents.Timetables.Deployed;

/// <summary>What a row of a list has, by the names of its columns. Rows share the names, so that a long list stays small.</summary>
/// <param name="Columns">The names.</param>
/// <param name="Values">A value for each.</param>
internal readonly record struct ListFields(string[] Columns, string[] Values)
{
    /// <summary>What there is in a column; null where there is no such column.</summary>
    public string? Of(string column) => Array.IndexOf(Columns, column) is >= 0 and var index ? Values[index] : null;
}

/// <summary>Words that come again from row to row, each kept once.</summary>
internal sealed class RepeatedWords
{
    private const int Most = 20_000;

    private readonly HashSet<string> _words = new(StringComparer.Ordinal);
    private string[] _columns = [];

    /// <summary>The word.</summary>
    public string Of(ReadOnlySpan<char> word)
    {
        var known = _words.GetAlternateLookup<ReadOnlySpan<char>>();
        if (known.TryGetValue(word, out var same)) return same;
        var text = word.ToString();
        if (_words.Count < Most) _words.Add(text);
        return text;
    }

    /// <summary>Names of columns, those of the row before where they are the same.</summary>
    public string[] Columns(string[] columns)
    {
        if (!columns.AsSpan().SequenceEqual(_columns)) _columns = Array.ConvertAll(columns, name => Of(name));
        return _columns;
    }
}
