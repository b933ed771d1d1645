using System.Text;

namespace WaterScript.Calendars.TimeZones;

/// <summary>
/// The file of all time zones that comes with Noda Time, from which it reads one zone at a time: of all zones, of places and of other systems' names it would
/// make objects first, which takes longer than a small site is checked. Parts of the file are a kind, a length and their bytes; texts are places in one part.
/// </summary>
internal sealed class ZonePack
{
    private const int HeadLength = sizeof(int);
    private const byte TextsKind = 0;
    private const byte ZoneKind = 1;
    private const byte VersionKind = 2;
    private const byte AliasesKind = 3;
    private const byte OtherSystemsKind = 4;

    /// <summary>Three texts, which nobody asks for, and no names.</summary>
    private static readonly byte[] NoOtherSystems = [0, 0, 0, 0];

    private readonly byte[] _bytes;
    private readonly List<Range> _zones = [];
    private Range? _texts;
    private Range? _version;
    private Range? _aliases;

    private ZonePack(byte[] bytes) => _bytes = bytes;

    /// <summary>The version of the data: <c>2026a</c>.</summary>
    public string Version
    {
        get
        {
            var reader = new Reader(_bytes, _version!.Value);
            return Encoding.UTF8.GetString(reader.Bytes(reader.Count()));
        }
    }

    /// <summary>Takes the parts of a file apart; null where it is not as expected.</summary>
    public static ZonePack? Of(byte[] bytes)
    {
        var pack = new ZonePack(bytes);
        try
        {
            var reader = new Reader(bytes, HeadLength..bytes.Length);
            while (!reader.IsAtEnd) pack.Add(reader.Byte(), reader.Part());
        }
        catch (ArgumentOutOfRangeException)
        {
            return null;
        }

        return pack is { _texts: not null, _version: not null, _aliases: not null } ? pack : null;
    }

    /// <summary>A file of one zone; null where there is no zone of the name.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The file is not as expected.</exception>
    public MemoryStream? FileOf(string id)
    {
        if (TextNumber(id) is not { } text) return null;
        if (ZoneCalled(text) is { } own) return FileOf(own, [0]);
        return MainNameOf(text) is { } main && ZoneCalled(main) is { } zone ? FileOf(zone, [1, .. Written(text), .. Written(main)]) : null;
    }

    private void Add(byte kind, Range part)
    {
        if (kind == ZoneKind) _zones.Add(part);
        else if (kind == TextsKind) _texts = part;
        else if (kind == VersionKind) _version = part;
        else if (kind == AliasesKind) _aliases = part;
    }

    private int? TextNumber(string text)
    {
        var sought = Encoding.UTF8.GetBytes(text);
        var reader = new Reader(_bytes, _texts!.Value);
        var count = reader.Count();
        for (var number = 0; number < count; number++)
        {
            if (reader.Bytes(reader.Count()).SequenceEqual(sought)) return number;
        }

        return null;
    }

    private Range? ZoneCalled(int text)
    {
        foreach (var zone in _zones)
        {
            if (new Reader(_bytes, zone).Count() == text) return zone;
        }

        return null;
    }

    private int? MainNameOf(int alias)
    {
        var reader = new Reader(_bytes, _aliases!.Value);
        for (var left = reader.Count(); left > 0; left--)
        {
            var (each, main) = (reader.Count(), reader.Count());
            if (each == alias) return main;
        }

        return null;
    }

    private MemoryStream FileOf(Range zone, byte[] aliases)
    {
        var file = new MemoryStream();
        file.Write(_bytes.AsSpan(0, HeadLength));
        Write(file, TextsKind, _bytes.AsSpan(_texts!.Value));
        Write(file, ZoneKind, _bytes.AsSpan(zone));
        Write(file, VersionKind, _bytes.AsSpan(_version!.Value));
        Write(file, AliasesKind, aliases);
        Write(file, OtherSystemsKind, NoOtherSystems);
        file.Position = 0;
        return file;
    }

    private static void Write(MemoryStream file, byte kind, ReadOnlySpan<byte> part)
    {
        file.WriteByte(kind);
        file.Write(Written(part.Length));
        file.Write(part);
    }

    /// <summary>A number, seven bits a byte, the lowest first.</summary>
    private static byte[] Written(int number)
    {
        var bytes = new List<byte>();
        for (; number > 0x7F; number >>= 7) bytes.Add((byte)(number | 0x80));
        return [.. bytes, (byte)number];
    }

    private struct Reader(byte[] bytes, Range part)
    {
        private readonly int _end = part.End.Value;
        private int _at = part.Start.Value;

        public readonly bool IsAtEnd => _at >= _end;

        public byte Byte() => Bytes(1)[0];

        public int Count()
        {
            var number = 0;
            for (var shift = 0; shift < 32; shift += 7)
            {
                var next = Byte();
                number |= (next & 0x7F) << shift;
                if (next <= 0x7F) return number;
            }

            throw new ArgumentOutOfRangeException(nameof(bytes));
        }

        public Range Part()
        {
            var length = Count();
            var start = _at;
            Bytes(length);
            return start.._at;
        }

        public ReadOnlySpan<byte> Bytes(int length)
        {
            ArgumentOutOfRangeException.ThrowIfNegative(length);
            ArgumentOutOfRangeException.ThrowIfGreaterThan(length, _end - _at);
            _at += length;
            return bytes.AsSpan(_at - length, length);
        }
    }
}
