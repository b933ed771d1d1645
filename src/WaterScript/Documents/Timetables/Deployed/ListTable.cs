using System.Security.Cryptography;
using System.Text;

namespace WaterScript.Documents.Timetables.Deployed;

/// <summary>
/// A list in CSV: a line with the names of the columns, a line for each row, and one that closes it. It is read without a copy of each line.
/// </summary>
internal sealed class ListTable
{
    private const string LineEnd = "\r\n";

    private static readonly int[] NotHashed = [2, 5, 6, 7, 8];

    private readonly string _text;
    private readonly int _last;

    public ListTable(string text)
    {
        _text = text;
        var isClosed = text.EndsWith(LineEnd, StringComparison.Ordinal);
        var before = isClosed ? text.AsSpan(0, text.Length - LineEnd.Length).LastIndexOf(LineEnd) : -1;
        _last = before < 0 ? text.Length : before + LineEnd.Length;
        LastLine = text.AsSpan(0, _last).Count(LineEnd) + 1;
        Last = before < 0 ? "" : text[_last..^LineEnd.Length];
    }

    /// <summary>The line that closes it; empty where it was cut off.</summary>
    public string Last { get; }

    /// <summary>Its number, from 1; where it was cut off, that of the line that it would be.</summary>
    public int LastLine { get; }

    /// <summary>The hash by which the table is closed: of all of it, without the hash and what it comes from.</summary>
    public string Hash()
    {
        var fields = Last.Split(',');
        foreach (var index in NotHashed)
        {
            if (index < fields.Length) fields[index] = "";
        }

        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Append(hash, _text.AsSpan(0, _last));
        Append(hash, string.Join(',', fields) + LineEnd);
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    /// <summary>The rows between the first line and the last, with the numbers of their lines.</summary>
    /// <exception cref="DeployedException">A row has another number of fields.</exception>
    public IEnumerable<(ListFields Fields, int Line)> Rows(string[] columns, RepeatedWords words)
    {
        var at = _text.IndexOf(LineEnd, StringComparison.Ordinal) + LineEnd.Length;
        for (var line = 2; at < _last; line++)
        {
            var end = _text.IndexOf(LineEnd, at, StringComparison.Ordinal);
            yield return (Fields(_text.AsSpan(at, end - at), columns, words, line), line);
            at = end + LineEnd.Length;
        }
    }

    private static ListFields Fields(ReadOnlySpan<char> row, string[] columns, RepeatedWords words, int line)
    {
        if (row.Count(',') != columns.Length - 1) throw new DeployedException(line, 1, "this row has another number of fields", DeployedList.Anew);
        var values = new string[columns.Length];
        var index = 0;
        foreach (var field in row.Split(',')) values[index++] = words.Of(row[field]);
        return new ListFields(columns, values);
    }

    private static void Append(IncrementalHash hash, ReadOnlySpan<char> text)
    {
        const int most = 16_384;
        var bytes = new byte[Encoding.UTF8.GetMaxByteCount(most)];
        var encoder = Encoding.UTF8.GetEncoder();
        for (var at = 0; at < text.Length; at += most)
        {
            var part = text.Slice(at, Math.Min(most, text.Length - at));
            hash.AppendData(bytes, 0, encoder.GetBytes(part, bytes, flush: at + most >= text.Length));
        }
    }
}
