namespace WaterScript.Answers.Diff;

/// <summary>By how much waterings that differ are moved, where all of them are by the same time: what other rules of a time zone do.</summary>
internal sealed class CommonShift
{
    private const int MostAhead = 100_000;

    private readonly Queue<(long Start, long Length, int Zone)> _ahead = new();
    private bool _isNewAhead;
    private bool _isBroken;
    private long? _seconds;

    /// <summary>How much later the new ones are, in seconds; null where they are moved by different times, or are others.</summary>
    public long? Seconds => _isBroken || _ahead.Count > 0 ? null : _seconds;

    /// <summary>Takes in what begins at a second, by its end and zone.</summary>
    public void Add(List<(long To, int Zone)> old, List<(long To, int Zone)> @new, long second)
    {
        foreach (var (to, zone) in old.Except(@new)) Add(isNew: false, second, to, zone);
        foreach (var (to, zone) in @new.Except(old)) Add(isNew: true, second, to, zone);
    }

    private void Add(bool isNew, long start, long to, int zone)
    {
        if (_isBroken) return;
        if (_ahead.Count == 0 || _isNewAhead == isNew)
        {
            _isNewAhead = isNew;
            _ahead.Enqueue((start, to - start, zone));
            _isBroken = _ahead.Count > MostAhead;
            return;
        }

        var (begun, length, other) = _ahead.Dequeue();
        var shift = isNew ? start - begun : begun - start;
        _isBroken = other != zone || length != to - start || shift != (_seconds ?? shift);
        _seconds = shift;
    }
}
