using System.Buffers;
using System.Buffers.Text;
using System.Globalization;
using System.Text;
using WaterScript.Text;

namespace WaterScript.Documents.Writers;

/// <summary>
/// The part of YAML 1.2 that a document needs, written so that a YAML 1.1 reader reads the same: only plain lower-case
/// words and numbers stand without quotes. Lines are never folded. It is our own because YamlDotNet's emitter alone takes 1.45 s for a year of mist
/// that is expanded and written in 0.33 s, all in.
/// </summary>
internal sealed class YamlWriter(Stream output) : DocumentWriter
{
    private const int FlushAt = 1 << 15;
    private const int LongestNumber = 32;

    /// <summary>Words that YAML 1.1 reads as true, false or nothing (yaml.org/type/bool.html, null.html).</summary>
    private static readonly string[] NoPlainWords = ["y", "n", "yes", "no", "on", "off", "true", "false", "null"];

    private readonly ArrayBufferWriter<byte> _buffer = new(2 * FlushAt);
    private Frame[] _frames = new Frame[8];
    private int _depth;
    private bool _isAtStart = true;

    public override void StartMap(Layout layout = Layout.Lines) => Start(isMap: true, layout);

    public override void EndMap() => End("{}"u8, "}"u8);

    public override void StartList(Layout layout = Layout.Lines) => Start(isMap: false, layout);

    public override void EndList() => End("[]"u8, "]"u8);

    public override void Key(string name)
    {
        BeginEntry();
        Encoding.UTF8.GetBytes(name, _buffer);
        Put(":"u8);
    }

    public override void Text(string value)
    {
        BeginValue();
        if (IsPlain(value)) Encoding.UTF8.GetBytes(value, _buffer);
        else PutQuoted(value);
    }

    public override void Ascii(ReadOnlySpan<byte> value)
    {
        BeginValue();
        Put("\""u8);
        Put(value);
        Put("\""u8);
    }

    public override void Number(long value)
    {
        BeginValue();
        Utf8Formatter.TryFormat(value, _buffer.GetSpan(LongestNumber), out var written);
        _buffer.Advance(written);
    }

    public override void Number(decimal value)
    {
        BeginValue();
        value.TryFormat(_buffer.GetSpan(LongestNumber), out var written, default, CultureInfo.InvariantCulture);
        _buffer.Advance(written);
    }

    public override void Flag(bool value)
    {
        BeginValue();
        Put(value ? "true"u8 : "false"u8);
    }

    public override void Dispose()
    {
        Put("\n"u8);
        Flush();
    }

    private ref Frame Current => ref _frames[_depth - 1];

    private void Start(bool isMap, Layout layout)
    {
        var parent = _depth > 0 ? Current : (Frame?)null;
        var isOneLine = layout == Layout.OneLine || parent is { IsOneLine: true };
        if (isOneLine)
        {
            BeginValue();
            Put(isMap ? "{"u8 : "["u8);
        }
        else if (parent is { IsMap: false })
        {
            BeginEntry();
        }

        if (_depth == _frames.Length) Array.Resize(ref _frames, 2 * _depth);
        _frames[_depth++] = new Frame
        {
            IsMap = isMap,
            IsOneLine = isOneLine,
            Indent = parent?.Indent + 2 ?? 0,
            BeginsOnLine = parent is { IsMap: false },
        };
    }

    private void End(ReadOnlySpan<byte> empty, ReadOnlySpan<byte> close)
    {
        var frame = _frames[--_depth];
        if (frame.IsOneLine)
        {
            Put(close);
        }
        else if (frame.Count == 0)
        {
            if (!frame.BeginsOnLine) Put(" "u8);
            Put(empty);
        }

        if (_buffer.WrittenCount >= FlushAt) Flush();
    }

    /// <summary>What stands before a key, or before an item of a list.</summary>
    private void BeginEntry()
    {
        ref var frame = ref Current;
        if (frame.IsOneLine)
        {
            if (frame.Count > 0) Put(", "u8);
        }
        else
        {
            if (frame.Count > 0 || !frame.BeginsOnLine) PutNewLine(frame.Indent);
            if (!frame.IsMap) Put("- "u8);
        }

        frame.Count++;
    }

    /// <summary>What stands before a value that is not a block of its own.</summary>
    private void BeginValue()
    {
        if (Current.IsMap) Put(" "u8);
        else BeginEntry();
    }

    private void PutNewLine(int indent)
    {
        if (!_isAtStart) Put("\n"u8);
        _isAtStart = false;
        _buffer.GetSpan(indent)[..indent].Fill((byte)' ');
        _buffer.Advance(indent);
    }

    private void Put(ReadOnlySpan<byte> bytes) => _buffer.Write(bytes);

    private static bool IsPlain(string value)
    {
        if (value.Length == 0 || !char.IsAsciiLetterLower(value[0]) || value[^1] == '-') return false;
        foreach (var letter in value)
        {
            if (!char.IsAsciiLetterLower(letter) && !char.IsAsciiDigit(letter) && letter != '-') return false;
        }

        return !NoPlainWords.Contains(value);
    }

    private void PutQuoted(string value)
    {
        Put("\""u8);
        foreach (var rune in value.EnumerateRunes())
        {
            if (rune.Value is '"' or '\\')
            {
                Put("\\"u8);
                Put([(byte)rune.Value]);
            }
            else if (IsPrintable(rune) && !HiddenCharacter.Misleads(rune))
            {
                _buffer.Advance(rune.EncodeToUtf8(_buffer.GetSpan(4)));
            }
            else
            {
                Encoding.UTF8.GetBytes(rune.IsBmp ? string.Create(CultureInfo.InvariantCulture, $"\\u{rune.Value:x4}")
                    : string.Create(CultureInfo.InvariantCulture, $"\\U{rune.Value:x8}"), _buffer);
            }
        }

        Put("\""u8);
    }

    /// <summary>
    /// Whether a character may stand as it is in quotes of one line: c-printable of YAML 1.2.2 (5.1) without line breaks and the byte-order mark.
    /// </summary>
    private static bool IsPrintable(Rune rune) => rune.Value switch
    {
        < 0x20 or (>= 0x7F and < 0xA0) => false,
        0x2028 or 0x2029 or 0xFEFF or 0xFFFE or 0xFFFF => false,
        _ => true,
    };

    private void Flush()
    {
        output.Write(_buffer.WrittenSpan);
        _buffer.ResetWrittenCount();
    }

    /// <summary>A map or list that is being written.</summary>
    private struct Frame
    {
        public bool IsMap { get; init; }

        public bool IsOneLine { get; init; }

        public int Indent { get; init; }

        /// <summary>Whether its first entry stands on the line already begun, after the dash of a list.</summary>
        public bool BeginsOnLine { get; init; }

        public int Count { get; set; }
    }
}
