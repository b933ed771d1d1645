namespace WaterScript.Answers.Audit;

/// <summary>Where rows that belong together, of one controller or of all, leave nothing unknown, and where they do.</summary>
/// <param name="silence">After so many seconds without a row nothing is known, where rows are not numbered.</param>
/// <param name="isNumbered">Whether rows are numbered.</param>
internal sealed class LogHoles(long silence, bool isNumbered)
{
    /// <summary>Holes that are held apart.</summary>
    private const int MostHoles = 100_000;

    private readonly List<(decimal Before, decimal After)> _holes = [];
    private LogEvent? _last;
    private long _breaksThen;

    /// <summary>When the first row was, in Unix seconds.</summary>
    public decimal First { get; private set; }

    /// <summary>When the last row was, in Unix seconds.</summary>
    public decimal Last => _last!.At;

    /// <inheritdoc cref="Last"/>
    public decimal? LastOrNull => _last?.At;

    /// <summary>When the row before the last one was; null where there was none.</summary>
    public decimal? Previous { get; private set; }

    /// <summary>Takes in the next row.</summary>
    /// <param name="logged">The row.</param>
    /// <param name="breaks">How often the numbers of all rows together had a gap so far.</param>
    public void Add(LogEvent logged, long breaks)
    {
        if (_last is null) First = logged.At;
        else if (!Follows(_last, logged, breaks)) AddHole(_last.At, logged.At);
        (Previous, _last, _breaksThen) = (_last?.At, logged, breaks);
    }

    /// <summary>
    /// Whether there is a hole nowhere in a stretch: rows are numbered without a gap, or none follows the one before by more than the silence. Silence itself
    /// is never taken for "nothing happened".
    /// </summary>
    public bool IsKnown(decimal from, decimal to)
    {
        if (_last is null || from < First || to > Last) return false;
        var (low, high) = (0, _holes.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (_holes[middle].After > from) high = middle;
            else low = middle + 1;
        }

        return low == _holes.Count || _holes[low].Before >= to;
    }

    /// <summary>Whether one number is that of the other, or the next.</summary>
    public static bool IsNext(LogEvent before, LogEvent after) =>
        after.Number is { } number && before.Number is { } last && (number == last || number == last + 1);

    /// <summary>Whether nothing is missing between two rows; numbers may count those of this controller, or those of all.</summary>
    private bool Follows(LogEvent before, LogEvent after, long breaks)
    {
        if (after.Kind == LogKind.Boot) return false;
        if (!isNumbered) return after.At - before.At <= silence;
        return IsNext(before, after) || (after.Number > before.Number && breaks == _breaksThen);
    }

    /// <summary>Where there are too many holes, the older half becomes one, in which nothing is known.</summary>
    private void AddHole(decimal before, decimal after)
    {
        _holes.Add((before, after));
        if (_holes.Count < MostHoles) return;
        _holes[0] = (_holes[0].Before, _holes[MostHoles / 2].After);
        _holes.RemoveRange(1, MostHoles / 2);
    }
}
