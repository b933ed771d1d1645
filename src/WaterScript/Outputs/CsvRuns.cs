using System.Buffers;
using System.Buffers.Text;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace WaterScript.Outputs;

/// <summary>
/// The runs as lines of CSV (RFC 4180), counted and hashed. Every document closes with that count and hash, so that the
/// YAML, the JSON and the CSV of one timetable can be told to hold the same runs, and one that was cut off is noticed.
/// </summary>
internal sealed class CsvRuns : IDisposable
{
    private const int LongestNumber = 32;

    private static readonly string[] Columns =
    [
        "from", "to", "zone", "output", "controller", "schedule", "day", "start", "pass", "pass_start", "step", "seconds", "depth_mm", "volume_l",
    ];

    private readonly ArrayBufferWriter<byte> _line = new();
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private bool _isFirst;

    /// <summary>Number of runs.</summary>
    public long Count { get; private set; }

    /// <summary>The header line.</summary>
    public ReadOnlySpan<byte> Header()
    {
        Begin();
        foreach (var column in Columns) Field(column);
        return End();
    }

    /// <summary>The line of a run; until the next one is asked for.</summary>
    public ReadOnlySpan<byte> Line(RunFields fields)
    {
        Count++;
        Begin();
        Field(fields.From);
        Field(fields.To);
        Field(fields.Zone.Name);
        Field(fields.Zone.Output > 0 ? fields.Zone.Output : null);
        Field(fields.Zone.Controller.Name);
        Field(fields.Schedule.Name);
        Field(fields.Day);
        Field(fields.Run.StartNumber);
        Field(fields.Run.Pass);
        Field(fields.PassStart);
        Field(fields.Step);
        Field(fields.Run.Seconds);
        Field(fields.Millimetres);
        Field(fields.Litres);
        return End();
    }

    /// <summary>The line that closes the table, with as many fields as all others; it is not part of the hash.</summary>
    public ReadOnlySpan<byte> Closing()
    {
        var hash = Hash();
        Begin();
        Field("end");
        Field(Count);
        Field(hash);
        for (var column = 3; column < Columns.Length; column++) Field("");
        Put("\r\n"u8);
        return _line.WrittenSpan;
    }

    /// <summary>The SHA-256 of the header and all lines so far, in lower-case hexadecimal digits.</summary>
    public string Hash() => Convert.ToHexStringLower(_hash.GetCurrentHash());

    /// <inheritdoc/>
    public void Dispose() => _hash.Dispose();

    private void Begin()
    {
        _line.ResetWrittenCount();
        _isFirst = true;
    }

    private ReadOnlySpan<byte> End()
    {
        Put("\r\n"u8);
        _hash.AppendData(_line.WrittenSpan);
        return _line.WrittenSpan;
    }

    private void Field(ReadOnlySpan<byte> ascii)
    {
        Separate();
        Put(ascii);
    }

    private void Field(string text)
    {
        Separate();
        var isQuoted = text.AsSpan().ContainsAny(",\"\r\n");
        Encoding.UTF8.GetBytes(isQuoted ? $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : text, _line);
    }

    private void Field(long? number)
    {
        Separate();
        if (number is not { } value) return;
        Utf8Formatter.TryFormat(value, _line.GetSpan(LongestNumber), out var written);
        _line.Advance(written);
    }

    private void Field(decimal? number)
    {
        Separate();
        if (number is not { } value) return;
        value.TryFormat(_line.GetSpan(LongestNumber), out var written, default, CultureInfo.InvariantCulture);
        _line.Advance(written);
    }

    private void Separate()
    {
        if (!_isFirst) Put(","u8);
        _isFirst = false;
    }

    private void Put(ReadOnlySpan<byte> bytes) => _line.Write(bytes);
}
