using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Runtime.InteropServices;
using NodaTime;

namespace WaterScript.Linting.Keeping;

/// <summary>
/// Reads what <see cref="KeptBytes"/> wrote. Whatever else the bytes are, it ends with one of these exceptions, and takes no more memory than they suggest.
/// </summary>
/// <param name="bytes">The bytes.</param>
internal sealed class KeptReader(ReadOnlyMemory<byte> bytes)
{
    private int _at;

    /// <summary>Whether all of it was read.</summary>
    public bool IsAtEnd => _at == bytes.Length;

    /// <summary>A number.</summary>
    /// <exception cref="InvalidDataException">There is none.</exception>
    public long Number() => BinaryPrimitives.ReadInt64LittleEndian(Next(sizeof(long)));

    /// <summary>A number within bounds.</summary>
    /// <param name="least">The least.</param>
    /// <param name="most">The greatest.</param>
    /// <exception cref="InvalidDataException">There is none, or it lies outside of them.</exception>
    public int Number(int least, int most) =>
        Number() is var number && number >= least && number <= most ? (int)number : throw new InvalidDataException();

    /// <summary>Yes or no.</summary>
    /// <exception cref="InvalidDataException">It is neither.</exception>
    public bool YesOrNo() => Next(1)[0] switch
    {
        0 => false,
        1 => true,
        _ => throw new InvalidDataException(),
    };

    /// <summary>A number with its decimals.</summary>
    /// <exception cref="InvalidDataException">There is none.</exception>
    /// <exception cref="ArgumentException">It is no such number.</exception>
    public decimal Decimal() => new(
        [Number(int.MinValue, int.MaxValue), Number(int.MinValue, int.MaxValue), Number(int.MinValue, int.MaxValue), Number(int.MinValue, int.MaxValue)]);

    /// <summary>A text.</summary>
    /// <exception cref="InvalidDataException">There is none.</exception>
    public string Text() => new(MemoryMarshal.Cast<byte, char>(Next(sizeof(char) * (long)Number(0, int.MaxValue))));

    /// <summary>A date.</summary>
    /// <exception cref="InvalidDataException">There is none.</exception>
    /// <exception cref="ArgumentException">There is no such date.</exception>
    public LocalDate Date() => new(Number(int.MinValue, int.MaxValue), Number(1, 12), Number(1, 31));

    /// <summary>A moment of a clock.</summary>
    /// <exception cref="InvalidDataException">There is none.</exception>
    /// <exception cref="ArgumentException">There is no such moment.</exception>
    public LocalDateTime Moment() => Date().At(LocalTime.FromNanosecondsSinceMidnight(Number()));

    /// <summary>Several of something, each of which takes a byte at least.</summary>
    /// <param name="read">Reads one.</param>
    /// <exception cref="InvalidDataException">They are not there.</exception>
    public ImmutableArray<T> All<T>(Func<T> read)
    {
        var all = new T[Number(0, bytes.Length - _at)];
        for (var i = 0; i < all.Length; i++) all[i] = read();
        return ImmutableCollectionsMarshal.AsImmutableArray(all);
    }

    private ReadOnlySpan<byte> Next(long length)
    {
        if (length > bytes.Length - _at) throw new InvalidDataException();
        var next = bytes.Span.Slice(_at, (int)length);
        _at += (int)length;
        return next;
    }
}
