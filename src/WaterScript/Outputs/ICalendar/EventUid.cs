using System.Buffers.Text;
using System.Security.Cryptography;

namespace WaterScript.Outputs;

/// <summary>
/// Names of events that stay the same from one compilation to the next: UUIDs of version 5 (RFC 9562, 5.5) of what an event is,
/// never of when it was written or how long it lasts.
/// </summary>
internal sealed class EventUid
{
    /// <summary>Bytes of a UUID as text.</summary>
    public const int Length = 36;

    private const int LongestName = 1_024;

    /// <summary>The namespace of WaterScript's events: the version 5 UUID of <c>waterscript:events</c> within the namespace of URLs (RFC 9562, 6.6).</summary>
    private static readonly byte[] Namespace = Of("waterscript:events"u8, Convert.FromHexString("6ba7b8119dad11d180b400c04fd430c8"));

    private readonly byte[] _text = new byte[Length];

    /// <summary>The UUID of a name; until the next one is asked for.</summary>
    /// <param name="name">ASCII.</param>
    public ReadOnlySpan<byte> Of(ReadOnlySpan<byte> name)
    {
        var uuid = Of(name, Namespace);
        Utf8Formatter.TryFormat(new Guid(uuid, bigEndian: true), _text, out _);
        return _text;
    }

    private static byte[] Of(ReadOnlySpan<byte> name, ReadOnlySpan<byte> space)
    {
        Span<byte> input = name.Length + space.Length <= LongestName ? stackalloc byte[name.Length + space.Length] : new byte[name.Length + space.Length];
        space.CopyTo(input);
        name.CopyTo(input[space.Length..]);
        Span<byte> hash = stackalloc byte[SHA1.HashSizeInBytes];
#pragma warning disable CA5350 // RFC 9562 prescribes SHA-1 for version 5; nothing secret rests on it.
        SHA1.HashData(input, hash);
#pragma warning restore CA5350
        hash[6] = (byte)((hash[6] & 0x0F) | 0x50);
        hash[8] = (byte)((hash[8] & 0x3F) | 0x80);
        return hash[..16].ToArray();
    }
}
