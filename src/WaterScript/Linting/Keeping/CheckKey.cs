using System.Buffers.Binary;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using NodaTime;
using WaterScript.Binding;
using WaterScript.Diagnostics;

namespace WaterScript.Linting.Keeping;

/// <summary>
/// All that the check of a site depends on, as one hash: which program checks, from which date, by which data of time zones, and all that was read, with what
/// reading found. Two checks with the same key find the same.
/// </summary>
internal static class CheckKey
{
    /// <summary>Its length.</summary>
    public const int Bytes = SHA256.HashSizeInBytes;

    /// <summary>The key of a check.</summary>
    /// <param name="program">What changes whenever a rule does.</param>
    /// <param name="path">The root file, as findings show it.</param>
    /// <param name="reading">What reading gave: a site without an error.</param>
    /// <param name="from">First date to look at; null for the site's first.</param>
    public static byte[] Of(string program, string path, SiteReading reading, LocalDate? from)
    {
        ArgumentNullException.ThrowIfNull(reading);
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Add(hash, program);
        Add(hash, path);
        Add(hash, reading.Site!.TimeZoneData);
        Add(hash, from is { } date ? date.YearMonthDay() : 0);
        Add(hash, reading.Files.Length);
        foreach (var source in reading.Files.Select(file => file.Source))
        {
            Add(hash, source.Path);
            Add(hash, source.HasByteOrderMark ? 1 : 0);
            Add(hash, source.Text);
        }

        Add(hash, reading.Findings.Count);
        foreach (var finding in reading.Findings) Add(hash, finding);
        return hash.GetHashAndReset();
    }

    /// <summary>A date as one number.</summary>
    private static int YearMonthDay(this LocalDate date) => (((date.Year * 16) + date.Month) * 32) + date.Day;

    private static void Add(IncrementalHash hash, Finding finding)
    {
        Add(hash, finding.Rule.Slug);
        Add(hash, finding.Heading);
        Add(hash, finding.Details);
        Add(hash, finding.Help);
        Add(hash, finding.Primary.Location.Source.Path);
        Add(hash, finding.Primary.Location.Span.Start);
        Add(hash, finding.Primary.Location.Span.Length);
    }

    /// <summary>A text with its length before it, so that what follows is never taken for a part of it.</summary>
    private static void Add(IncrementalHash hash, string text)
    {
        Add(hash, text.Length);
        hash.AppendData(MemoryMarshal.AsBytes(text.AsSpan()));
    }

    private static void Add(IncrementalHash hash, int number)
    {
        Span<byte> bytes = stackalloc byte[sizeof(int)];
        BinaryPrimitives.WriteInt32LittleEndian(bytes, number);
        hash.AppendData(bytes);
    }
}
