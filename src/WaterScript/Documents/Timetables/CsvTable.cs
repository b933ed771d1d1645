using System.Buffers;
using System.Buffers.Text;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using WaterScript.Timetables;

namespace WaterScript.Documents.Timetables;

/// <summary>
/// A list as lines of CSV (RFC 4180), counted and hashed. A document closes each of its lists with that count and hash, so that
/// the YAML, the JSON and the CSV of one timetable can be seen to hold the same, and one that was cut off is noticed.
/// </summary>
internal abstract class CsvTable : IDisposable
{
    private const int LongestNumber = 32;

    private static readonly ClosingNotes None = new("", "", "", "");

    private readonly string[] _columns;
    private readonly ArrayBufferWriter<byte> _line = new();
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private bool _isFirst;
    private string? _digest;

    /// <summary>Begins with the header, which counts for the hash.</summary>
    protected CsvTable(params string[] columns)
    {
        _columns = columns;
        Begin();
        foreach (var column in columns) Field(column);
        End();
        Header = _line.WrittenSpan.ToArray();
    }

    /// <summary>The header line.</summary>
    public ReadOnlyMemory<byte> Header { get; }

    /// <summary>Number of lines, without the header.</summary>
    public long Count { get; private set; }

    /// <summary>The line that closes the table, with as many fields as all others. Nothing is added after it.</summary>
    public ReadOnlySpan<byte> Closing(Validity valid, ClosingNotes notes)
    {
        var hash = Hash(valid);
        PutClosing(hash, valid, notes);
        return _line.WrittenSpan;
    }

    /// <summary>
    /// The SHA-256 of the whole table with the hash itself and the notes left empty, in lower-case hexadecimal digits: so it covers the count
    /// and the dates too, and two lists of the same lines for other dates are two lists. Nothing is added after it.
    /// </summary>
    public string Hash(Validity valid)
    {
        if (_digest is not null) return _digest;
        PutClosing("", valid, None);
        _hash.AppendData(_line.WrittenSpan);
        return _digest = Convert.ToHexStringLower(_hash.GetCurrentHash());
    }

    /// <inheritdoc/>
    public void Dispose() => _hash.Dispose();

    /// <summary>Begins a line; its fields follow.</summary>
    protected void BeginLine()
    {
        Count++;
        Begin();
    }

    /// <summary>Ends the line; it stands until the next one begins.</summary>
    protected ReadOnlySpan<byte> EndLine() => End();

    private void Begin()
    {
        _line.ResetWrittenCount();
        _isFirst = true;
    }

    private void PutClosing(string hash, Validity valid, ClosingNotes notes)
    {
        const int Fields = 9;
        Begin();
        Field("end");
        Field(Count);
        Field(hash);
        Field(valid.From);
        Field(valid.Until);
        Field(notes.Sources);
        Field(notes.Revision);
        Field(notes.TimeZoneData);
        Field(notes.Site);
        for (var column = Fields; column < _columns.Length; column++) Field("");
        Put("\r\n"u8);
    }

    private ReadOnlySpan<byte> End()
    {
        Put("\r\n"u8);
        _hash.AppendData(_line.WrittenSpan);
        return _line.WrittenSpan;
    }

    protected void Field(ReadOnlySpan<byte> ascii)
    {
        Separate();
        Put(ascii);
    }

    protected void Field(string text)
    {
        Separate();
        var isQuoted = text.AsSpan().ContainsAny(",\"\r\n");
        Encoding.UTF8.GetBytes(isQuoted ? $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : text, _line);
    }

    protected void Field(long? number)
    {
        Separate();
        if (number is { } value) Put(value);
    }

    protected void Field(decimal? number)
    {
        Separate();
        if (number is not { } value) return;
        value.TryFormat(_line.GetSpan(LongestNumber), out var written, default, CultureInfo.InvariantCulture);
        _line.Advance(written);
    }

    /// <summary>Numbers with a space between them.</summary>
    protected void Field(RunNumbers numbers)
    {
        Separate();
        for (var i = 0; i < numbers.Count; i++)
        {
            if (i > 0) Put(" "u8);
            Put(numbers[i]);
        }
    }

    private void Separate()
    {
        if (!_isFirst) Put(","u8);
        _isFirst = false;
    }

    private void Put(long number)
    {
        Utf8Formatter.TryFormat(number, _line.GetSpan(LongestNumber), out var written);
        _line.Advance(written);
    }

    private void Put(ReadOnlySpan<byte> bytes) => _line.Write(bytes);
}
