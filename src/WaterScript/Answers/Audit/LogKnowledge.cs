namespace WaterScript.Answers.Audit;

/// <summary>What of a log has to be remembered while it goes by: where it has holes, and its remarks.</summary>
internal sealed class LogKnowledge(long silence, bool isNumbered)
{
    /// <summary>Remarks that are held. Whole passes are judged by theirs, which are far fewer.</summary>
    private const int MostRemarks = 40_000;

    /// <summary>Holes that are held apart.</summary>
    private const int MostHoles = 100_000;

    private readonly List<(decimal Before, decimal After)> _holes = [];
    private readonly Dictionary<(LogKind, int), Remarks> _remarks = [];
    private readonly Queue<Remarks> _heldIn = new();
    private LogEvent? _last;
    private long _sequence;

    /// <summary>Whether its rows are numbered, so that a hole shows by itself.</summary>
    public bool IsNumbered => isNumbered;

    /// <summary>When the first row was, in Unix seconds.</summary>
    public decimal First { get; private set; }

    /// <summary>When the last row was, in Unix seconds.</summary>
    public decimal Last => _last!.At;

    /// <summary>Takes in the next row.</summary>
    public void Add(LogEvent logged)
    {
        if (_last is null) First = logged.At;
        else if (!Follows(_last, logged)) AddHole(_last.At, logged.At);
        _last = logged;
        if (logged.Kind is LogKind.Skip or LogKind.Fault or LogKind.Hand) AddRemark(logged);
    }

    /// <summary>
    /// Whether the log has a hole nowhere in a stretch: its rows are numbered without a gap, or none follows the one before by more than the silence.
    /// Silence itself is never taken for "nothing happened".
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

    /// <summary>The first remark of a kind about a zone, or about all, within a stretch; null for none.</summary>
    public LogEvent? Remark(LogKind kind, int zone, decimal from, decimal to)
    {
        var (own, all) = (FirstRemark(kind, zone, from), FirstRemark(kind, LogEvent.NoZone, from));
        var first = own is null || (all is { } other && other.Sequence < own.Value.Sequence) ? all : own;
        return first is { Event: var logged } && logged.At <= to ? logged : null;
    }

    /// <summary>Whether a remark is about a zone itself within a stretch.</summary>
    public bool HasRemark(LogKind kind, int zone, decimal from, decimal to) => FirstRemark(kind, zone, from) is { Event: var logged } && logged.At <= to;

    private bool Follows(LogEvent before, LogEvent after)
    {
        if (after.Kind == LogKind.Boot) return false;
        if (!isNumbered) return after.At - before.At <= silence;
        return after.Number is { } number && before.Number is { } last && (number == last || number == last + 1);
    }

    /// <summary>Where there are too many holes, the older half becomes one, in which nothing is known.</summary>
    private void AddHole(decimal before, decimal after)
    {
        _holes.Add((before, after));
        if (_holes.Count < MostHoles) return;
        _holes[0] = (_holes[0].Before, _holes[MostHoles / 2].After);
        _holes.RemoveRange(1, MostHoles / 2);
    }

    private void AddRemark(LogEvent logged)
    {
        var key = (logged.Kind, logged.Zone);
        if (!_remarks.TryGetValue(key, out var remarks)) _remarks[key] = remarks = new Remarks();
        remarks.Add(logged, _sequence++);
        _heldIn.Enqueue(remarks);
        if (_heldIn.Count > MostRemarks) _heldIn.Dequeue().RemoveFirst();
    }

    private (LogEvent Event, long Sequence)? FirstRemark(LogKind kind, int zone, decimal from) =>
        _remarks.TryGetValue((kind, zone), out var remarks) ? remarks.FirstFrom(from) : null;

    /// <summary>Those of one kind about one zone, in order.</summary>
    private sealed class Remarks
    {
        private readonly List<(LogEvent Event, long Sequence)> _list = [];
        private int _start;

        public void Add(LogEvent logged, long sequence) => _list.Add((logged, sequence));

        public void RemoveFirst()
        {
            if (++_start <= _list.Count / 2) return;
            _list.RemoveRange(0, _start);
            _start = 0;
        }

        public (LogEvent Event, long Sequence)? FirstFrom(decimal from)
        {
            var (low, high) = (_start, _list.Count);
            while (low < high)
            {
                var middle = (low + high) / 2;
                if (_list[middle].Event.At >= from) high = middle;
                else low = middle + 1;
            }

            return low < _list.Count ? _list[low] : null;
        }
    }
}
