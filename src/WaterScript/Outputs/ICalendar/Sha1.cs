using System.Buffers.Binary;
using System.Numerics;

namespace WaterScript.Outputs;

/// <summary>
/// SHA-1 (FIPS 180-4, 6.1), which names of events are made with; nothing secret rests on it. The platform's is made for long
/// messages: for the fifty bytes of such a name it takes several times as long, and every event has one.
/// </summary>
internal static class Sha1
{
    /// <summary>Bytes of a hash.</summary>
    public const int HashLength = 20;

    private const int BlockLength = 64;

    /// <summary>What the length of the message takes at the end of the last block.</summary>
    private const int LengthOfLength = 8;

    /// <summary>The hash of a message.</summary>
    /// <param name="message">Any bytes.</param>
    /// <param name="hash">At least <see cref="HashLength"/> bytes.</param>
    public static void Hash(ReadOnlySpan<byte> message, Span<byte> hash)
    {
        Span<uint> state = [0x67452301, 0xEFCDAB89, 0x98BADCFE, 0x10325476, 0xC3D2E1F0];
        var rest = message;
        for (; rest.Length >= BlockLength; rest = rest[BlockLength..]) Add(rest, state);
        Span<byte> end = stackalloc byte[2 * BlockLength];
        end.Clear();
        rest.CopyTo(end);
        end[rest.Length] = 0x80;
        if (rest.Length < BlockLength - LengthOfLength) end = end[..BlockLength];
        BinaryPrimitives.WriteUInt64BigEndian(end[^LengthOfLength..], 8UL * (ulong)message.Length);
        for (; !end.IsEmpty; end = end[BlockLength..]) Add(end, state);
        for (var i = 0; i < state.Length; i++) BinaryPrimitives.WriteUInt32BigEndian(hash[(4 * i)..], state[i]);
    }

    private static void Add(ReadOnlySpan<byte> block, Span<uint> state)
    {
        Span<uint> words = stackalloc uint[80];
        for (var i = 0; i < 16; i++) words[i] = BinaryPrimitives.ReadUInt32BigEndian(block[(4 * i)..]);
        for (var i = 16; i < words.Length; i++) words[i] = BitOperations.RotateLeft(words[i - 3] ^ words[i - 8] ^ words[i - 14] ^ words[i - 16], 1);

        var (a, b, c, d, e) = (state[0], state[1], state[2], state[3], state[4]);
        for (var i = 0; i < words.Length; i++)
        {
            var mixed = i switch
            {
                < 20 => ((b & c) | (~b & d)) + 0x5A827999,
                < 40 => (b ^ c ^ d) + 0x6ED9EBA1,
                < 60 => ((b & c) | (b & d) | (c & d)) + 0x8F1BBCDC,
                _ => (b ^ c ^ d) + 0xCA62C1D6,
            };
            (a, b, c, d, e) = (BitOperations.RotateLeft(a, 5) + mixed + e + words[i], a, BitOperations.RotateLeft(b, 30), c, d);
        }

        state[0] += a;
        state[1] += b;
        state[2] += c;
        state[3] += d;
        state[4] += e;
    }
}
