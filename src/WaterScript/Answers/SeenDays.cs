namespace WaterScript.Answers;

/// <summary>Dates, in days since 1970-01-01, of some hundred years at most: a bit each.</summary>
internal sealed class SeenDays
{
    private const int BitsInWord = 64;

    private readonly List<ulong> _words = [];
    private int _first;

    /// <summary>How many there are.</summary>
    public int Count { get; private set; }

    /// <summary>The dates, in order.</summary>
    public IEnumerable<int> Days => _words.SelectMany((word, index) =>
        Enumerable.Range(0, BitsInWord).Where(bit => (word >> bit & 1) != 0).Select(bit => ((_first + index) * BitsInWord) + bit));

    /// <summary>Whether a date was taken in.</summary>
    public bool Contains(int day)
    {
        var word = (int)Math.Floor((double)day / BitsInWord);
        return word >= _first && word - _first < _words.Count && (_words[word - _first] >> (day - (word * BitsInWord)) & 1) != 0;
    }

    /// <summary>Takes a date in; false where it was there.</summary>
    public bool Add(int day)
    {
        var word = (int)Math.Floor((double)day / BitsInWord);
        if (_words.Count == 0) _first = word;
        if (word < _first)
        {
            _words.InsertRange(0, Enumerable.Repeat(0UL, _first - word));
            _first = word;
        }

        while (_words.Count <= word - _first) _words.Add(0);
        var bit = 1UL << (day - (word * BitsInWord));
        if ((_words[word - _first] & bit) != 0) return false;
        _words[word - _first] |= bit;
        Count++;
        return true;
    }
}
