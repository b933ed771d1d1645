using System.Security.Cryptography;
using System.Text;

namespace WaterScript.Documents.ICalendar;

/// <summary>
/// Names of events that stay the same from one compilation to the next: UUIDs of version 5 (RFC 9562, 5.5) of what an event is,
/// never of when it was written or how long it lasts.
/// </summary>
internal sealed class EventUid
{
    /// <summary>Bytes of a UUID as text.</summary>
    public const int Length = 36;

    private const int BytesOfUuid = 16;

    /// <summary>The namespace of WaterScript's events: the version 5 UUID of <c>waterscript:events</c> within the namespace of URLs (RFC 9562, 6.6).</summary>
    private static readonly byte[] Namespace = Of([.. Convert.FromHexString("6ba7b8119dad11d180b400c04fd430c8"), .. "waterscript:events"u8]);

    /// <summary>What is hashed: the namespace, what the events show, and room for the date of one.</summary>
    private readonly byte[] _text;

    /// <summary>Names for the events that show one thing on many dates.</summary>
    /// <param name="shown">What they show, in ASCII: <c>garden/morning/1/2</c>.</param>
    public EventUid(string shown) => _text = [.. Namespace, .. Encoding.ASCII.GetBytes($"{shown}@"), .. new byte[CalendarTime.DateLength]];

    /// <summary>Writes the name of an event.</summary>
    /// <param name="day">Its date, in days since 1970-01-01; null for the one event that needs none.</param>
    /// <param name="into">At least <see cref="Length"/> bytes.</param>
    public void Write(int? day, Span<byte> into)
    {
        const int AtAndDate = 1 + CalendarTime.DateLength;
        if (day is { } date) CalendarTime.Date(date, _text.AsSpan(^CalendarTime.DateLength..));
        Span<byte> uuid = stackalloc byte[BytesOfUuid];
        Of(day is null ? _text.AsSpan(..^AtAndDate) : _text, uuid);
        Show(uuid, into);
    }

    private static byte[] Of(byte[] text)
    {
        var uuid = new byte[BytesOfUuid];
        Of(text, uuid);
        return uuid;
    }

    private static void Of(ReadOnlySpan<byte> text, Span<byte> uuid)
    {
        Span<byte> hash = stackalloc byte[SHA1.HashSizeInBytes];
#pragma warning disable CA5350 // RFC 9562 prescribes SHA-1 for version 5; nothing secret rests on it.
        SHA1.HashData(text, hash);
#pragma warning restore CA5350
        hash[6] = (byte)((hash[6] & 0x0F) | 0x50);
        hash[8] = (byte)((hash[8] & 0x3F) | 0x80);
        hash[..BytesOfUuid].CopyTo(uuid);
    }

    private static void Show(ReadOnlySpan<byte> uuid, Span<byte> into)
    {
        var digits = "0123456789abcdef"u8;
        var at = 0;
        for (var i = 0; i < uuid.Length; i++)
        {
            if (i is 4 or 6 or 8 or 10) into[at++] = (byte)'-';
            into[at++] = digits[uuid[i] >> 4];
            into[at++] = digits[uuid[i] & 0xF];
        }
    }
}
