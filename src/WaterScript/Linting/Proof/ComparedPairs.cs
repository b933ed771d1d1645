using WaterScript.Simulation;

namespace WaterScript.Linting.Proof;

/// <summary>Counts pairs of schedules that are compared, each once, whatever they are compared for.</summary>
internal sealed class ComparedPairs
{
    /// <summary>More are not counted: they would take longer than comparing them may.</summary>
    private const int Most = 100_000;

    private readonly HashSet<(int First, int Second)> _all = [];
    private readonly HashSet<(int First, int Second)> _notProved = [];
    private bool _isTooMany;

    /// <summary>How many there are, and of how many it is not decided whether they meet; null where there are too many.</summary>
    public (int All, int NotProved)? Counts => _isTooMany ? null : (_all.Count, _notProved.Count);

    /// <summary>Counts a pair; false when there are too many.</summary>
    public bool Add(int first, int second)
    {
        if (_all.Count >= Most) _isTooMany = true;
        if (!_isTooMany) _all.Add(ZoneMeetings.PairOf(first, second));
        return !_isTooMany;
    }

    /// <summary>Counts a pair that is not decided.</summary>
    public void AddNotProved(int first, int second)
    {
        if (!_isTooMany) _notProved.Add(ZoneMeetings.PairOf(first, second));
    }
}
