using System.Buffers;
using System.Buffers.Binary;
using System.Runtime.InteropServices;
using NodaTime;

namespace WaterScript.Linting.Keeping;

/// <summary>Numbers, texts and dates, one after the other, as <see cref="KeptReader"/> reads them.</summary>
internal sealed class KeptBytes
{
    private readonly ArrayBufferWriter<byte> _bytes = new();

    /// <summary>All of it.</summary>
    public byte[] ToArray() => _bytes.WrittenSpan.ToArray();

    /// <summary>A number.</summary>
    public void Add(long number)
    {
        Span<byte> bytes = stackalloc byte[sizeof(long)];
        BinaryPrimitives.WriteInt64LittleEndian(bytes, number);
        _bytes.Write(bytes);
    }

    /// <summary>Yes or no.</summary>
    public void Add(bool value) => _bytes.Write([value ? (byte)1 : (byte)0]);

    /// <summary>A number with all its decimals, also those that are 0.</summary>
    public void Add(decimal number)
    {
        Span<int> parts = stackalloc int[4];
        decimal.GetBits(number, parts);
        foreach (var part in parts) Add(part);
    }

    /// <summary>A text, each of its units as it is: what cuts a text may cut a pair of them.</summary>
    public void Add(string text)
    {
        Add(text.Length);
        _bytes.Write(MemoryMarshal.AsBytes(text.AsSpan()));
    }

    /// <summary>A date.</summary>
    public void Add(LocalDate date)
    {
        Add(date.Year);
        Add(date.Month);
        Add(date.Day);
    }

    /// <summary>A moment of a clock.</summary>
    public void Add(LocalDateTime moment)
    {
        Add(moment.Date);
        Add(moment.NanosecondOfDay);
    }

    /// <summary>Several of something, and how many there are.</summary>
    public void Add<T>(IReadOnlyCollection<T> all, Action<T> add)
    {
        Add(all.Count);
        foreach (var one in all) add(one);
    }
}
