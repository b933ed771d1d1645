using System.Security.Cryptography;
using WaterScript.Outputs;
using Xunit;

namespace WaterScript.Tests.Outputs;

/// <summary>The hash of names is the one of the standard.</summary>
public sealed class Sha1Tests
{
    /// <summary>S: NIST, examples for FIPS 180-4; the lengths around the end of a block are judged by the platform's own.</summary>
    [Fact]
    public void A_printed_message_has_its_printed_hash() => Assert.Equal("A9993E364706816ABA3E25717850C26C9CD0D89D", Convert.ToHexString(HashOf("abc"u8.ToArray())));

    [Fact]
    public void Every_length_is_hashed_as_the_platform_does()
    {
        var random = new Random(20);
        for (var length = 0; length < 300; length++)
        {
            var message = new byte[length];
            random.NextBytes(message);
#pragma warning disable CA5350 // It is what is asked for.
            Assert.Equal(SHA1.HashData(message), HashOf(message));
#pragma warning restore CA5350
        }
    }

    private static byte[] HashOf(byte[] message)
    {
        var hash = new byte[Sha1.HashLength];
        Sha1.Hash(message, hash);
        return hash;
    }
}
