using System.Numerics;

namespace WaterScript.Calendars;

/// <summary>A set of days within a stretch of days, one bit a day.</summary>
internal sealed class DayBits
{
    private const int BitsInWord = 64;

    private readonly ulong[] _words;

    /// <summary>An empty set within a stretch.</summary>
    internal DayBits(int first, int length)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(length);
        First = first;
        Length = length;
        _words = new ulong[(length + BitsInWord - 1) / BitsInWord];
    }

    /// <summary>First day of the stretch, in days since 1970-01-01.</summary>
    public int First { get; }

    /// <summary>Number of days in the stretch.</summary>
    public int Length { get; }

    /// <summary>First day after the stretch.</summary>
    public int End => First + Length;

    /// <summary>How many days of the stretch are in the set.</summary>
    public int Count
    {
        get
        {
            var count = 0;
            foreach (var word in _words)
                count += BitOperations.PopCount(word);
            return count;
        }
    }

    /// <summary>Whether the stretch reaches over a day.</summary>
    public bool Covers(int day) => (uint)(day - First) < (uint)Length;

    /// <summary>Whether a day is in the set; false outside the stretch.</summary>
    public bool Contains(int day) => Covers(day) && (_words[(day - First) / BitsInWord] & MaskOf(day - First)) != 0;

    /// <summary>The first day of the set that is no earlier than <paramref name="day"/>, or null.</summary>
    public int? Next(int day)
    {
        var bit = Math.Max(day - First, 0);
        if (bit >= Length)
            return null;
        var index = bit / BitsInWord;
        var word = _words[index] & (ulong.MaxValue << (bit % BitsInWord));
        while (word == 0)
        {
            if (++index == _words.Length)
                return null;
            word = _words[index];
        }
        return First + (index * BitsInWord) + BitOperations.TrailingZeroCount(word);
    }

    /// <summary>Adds a day; nothing happens when it lies outside the stretch.</summary>
    internal void Mark(int day)
    {
        if (Covers(day))
            _words[(day - First) / BitsInWord] |= MaskOf(day - First);
    }

    /// <summary>Adds every <paramref name="step"/>th day from <paramref name="first"/> to <paramref name="last"/> as far as they lie in the stretch.</summary>
    internal void MarkEvery(int step, long first, long last)
    {
        var bit = first - First;
        if (bit < 0)
            bit += (step - 1 - bit) / step * step;
        var lastBit = Math.Min(last - First, Length - 1);
        if (step <= BitsInWord && bit + (2L * step * BitsInWord) <= lastBit)
        {
            MarkWords(step, (int)bit, (int)lastBit);
            return;
        }

        for (; bit <= lastBit; bit += step)
            _words[bit / BitsInWord] |= MaskOf((int)bit);
    }

    /// <summary>The same, a word at a time: after as many words as the step has days, the words repeat.</summary>
    private void MarkWords(int step, int bit, int lastBit)
    {
        Span<ulong> words = stackalloc ulong[step];
        words.Clear();
        for (var marked = bit % step; marked < step * BitsInWord; marked += step)
            words[marked / BitsInWord] |= MaskOf(marked);
        var (first, last) = (bit / BitsInWord, lastBit / BitsInWord);
        for (var index = first; index <= last; index++)
        {
            var word = words[index % step];
            if (index == first)
                word &= ulong.MaxValue << (bit % BitsInWord);
            if (index == last)
                word &= ulong.MaxValue >> (BitsInWord - 1 - (lastBit % BitsInWord));
            _words[index] |= word;
        }
    }

    /// <summary>Takes away what is not in another set over the same stretch.</summary>
    internal void IntersectWith(DayBits other)
    {
        for (var index = 0; index < _words.Length; index++)
            _words[index] &= other._words[index];
    }

    /// <summary>Takes away what is in another set over the same stretch.</summary>
    internal void ExceptWith(DayBits other)
    {
        for (var index = 0; index < _words.Length; index++)
            _words[index] &= ~other._words[index];
    }

    private static ulong MaskOf(int bit) => 1UL << (bit % BitsInWord);
}
