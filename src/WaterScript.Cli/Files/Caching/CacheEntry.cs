using System.Security.Cryptography;

namespace WaterScript.Cli.Files.Caching;

/// <summary>
/// A file of a cache: what it is, the key, a hash of the rest, and the rest. Whatever else lies under its name is not taken for one: a file that is cut off,
/// damaged, of another key or of another form.
/// </summary>
internal static class CacheEntry
{
    /// <summary>A file that is longer is neither written nor read.</summary>
    public const int MostBytes = 1 << 20;

    private const int HashBytes = SHA256.HashSizeInBytes;

    /// <summary>What is in it. It changes with the form of what is kept.</summary>
    private static ReadOnlySpan<byte> Mark => "WaterScript check 1\n"u8;

    /// <summary>The bytes of a file; null where it would be too long.</summary>
    public static byte[]? Of(ReadOnlySpan<byte> key, ReadOnlySpan<byte> kept)
    {
        var length = Mark.Length + key.Length + HashBytes + kept.Length;
        return length > MostBytes ? null : [.. Mark, .. key, .. HashOf(key, kept), .. kept];
    }

    /// <summary>What a file keeps for a key; null where it is none of that key, or not as it was written.</summary>
    public static ReadOnlyMemory<byte>? Kept(ReadOnlySpan<byte> key, ReadOnlyMemory<byte> file)
    {
        var (keyAt, hashAt) = (Mark.Length, Mark.Length + key.Length);
        if (file.Length < hashAt + HashBytes) return null;
        var bytes = file.Span;
        var kept = file[(hashAt + HashBytes)..];
        return bytes[..keyAt].SequenceEqual(Mark) && bytes[keyAt..hashAt].SequenceEqual(key)
            && bytes[hashAt..(hashAt + HashBytes)].SequenceEqual(HashOf(key, kept.Span)) ? kept : null;
    }

    private static byte[] HashOf(ReadOnlySpan<byte> key, ReadOnlySpan<byte> kept)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(key);
        hash.AppendData(kept);
        return hash.GetHashAndReset();
    }
}
