using System.Buffers.Text;
using System.Security.Cryptography;

namespace WaterScript.Outputs;

/// <summary>
/// Names of events that stay the same from one compilation to the next: UUIDs of version 5 (RFC 9562, 5.5) of what an event is,
/// never of when it was written or how long it lasts.
/// </summary>
internal sealed class EventUid : IDisposable
{
    /// <summary>Bytes of a UUID as text.</summary>
    public const int Length = 36;

    /// <summary>The namespace of WaterScript's events: the version 5 UUID of <c>waterscript:events</c> within the namespace of URLs (RFC 9562, 6.6).</summary>
    private static readonly byte[] Namespace = EventsIn(Convert.FromHexString("6ba7b8119dad11d180b400c04fd430c8"));

#pragma warning disable CA5350 // RFC 9562 prescribes SHA-1 for version 5; nothing secret rests on it.
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA1);
#pragma warning restore CA5350
    private readonly byte[] _text = new byte[Length];

    /// <summary>The UUID of a name; until the next one is asked for.</summary>
    /// <param name="name">ASCII.</param>
    public ReadOnlySpan<byte> Of(ReadOnlySpan<byte> name)
    {
        Utf8Formatter.TryFormat(Of(name, Namespace), _text, out _);
        return _text;
    }

    /// <inheritdoc/>
    public void Dispose() => _hash.Dispose();

    private static byte[] EventsIn(byte[] space)
    {
        using var uid = new EventUid();
        return uid.Of("waterscript:events"u8, space).ToByteArray(bigEndian: true);
    }

    private Guid Of(ReadOnlySpan<byte> name, byte[] space)
    {
        Span<byte> hash = stackalloc byte[SHA1.HashSizeInBytes];
        _hash.AppendData(space);
        _hash.AppendData(name);
        _hash.GetHashAndReset(hash);
        hash[6] = (byte)((hash[6] & 0x0F) | 0x50);
        hash[8] = (byte)((hash[8] & 0x3F) | 0x80);
        return new Guid(hash[..16], bigEndian: true);
    }
}
