using WaterScript.Model;

namespace WaterScript.Answers.Audit;

/// <summary>What of a log has to be remembered while it goes by: where it has holes, of each controller apart, and its remarks.</summary>
/// <param name="silence">After so many seconds without a row nothing is known, where rows are not numbered.</param>
/// <param name="isNumbered">Whether rows are numbered.</param>
/// <param name="controllers">How many controllers there are.</param>
internal sealed class LogKnowledge(long silence, bool isNumbered, int controllers)
{
    /// <summary>Remarks that are held. Whole passes are judged by theirs, which are far fewer.</summary>
    private const int MostRemarks = 40_000;

    private readonly LogHoles _all = new(silence, isNumbered);
    private readonly LogHoles[] _apart = controllers > 1 ? [.. Enumerable.Range(0, controllers).Select(_ => new LogHoles(silence, isNumbered))] : [];
    private readonly Dictionary<(LogKind, int), Remarks> _remarks = [];
    private readonly Queue<Remarks> _heldIn = new();
    private LogEvent? _last;
    private long _breaks;
    private long _sequence;

    /// <summary>Whether its rows are numbered, so that a hole shows by itself.</summary>
    public bool IsNumbered => isNumbered;

    /// <summary>When the first row was, in Unix seconds.</summary>
    public decimal First => _all.First;

    /// <summary>When the last row was, in Unix seconds.</summary>
    public decimal Last => _all.Last;

    /// <summary>Takes in the next row. One that is of no controller in particular counts for all of them.</summary>
    public void Add(LogEvent logged)
    {
        if (_last is { } last && !LogHoles.IsNext(last, logged)) _breaks++;
        _last = logged;
        _all.Add(logged, _breaks);
        foreach (var (index, holes) in _apart.Index())
        {
            if (logged.Controller == index || logged.Controller == LogEvent.NoController) holes.Add(logged, _breaks);
        }

        if (logged.Kind is LogKind.Skip or LogKind.Fault or LogKind.Hand) AddRemark(logged);
    }

    /// <summary>Whether the log has a hole nowhere in a stretch.</summary>
    /// <inheritdoc cref="LogHoles.IsKnown"/>
    public bool IsKnown(decimal from, decimal to) => _all.IsKnown(from, to);

    /// <summary>Whether what the log has of the controller of a zone has a hole nowhere in a stretch.</summary>
    /// <inheritdoc cref="LogHoles.IsKnown"/>
    public bool IsKnown(Zone zone, decimal from, decimal to) => Of(zone).IsKnown(from, to);

    /// <summary>When the row before the current one was that is of the controller of a zone; null where there was none.</summary>
    public decimal? Before(Zone zone) => Of(zone).Previous;

    /// <summary>When the last row was that is of the controller of a zone; null where there was none.</summary>
    public decimal? LastOf(Zone zone) => Of(zone).LastOrNull;

    /// <summary>The first remark of a kind about a zone, or about all, within a stretch; null for none.</summary>
    public LogEvent? Remark(LogKind kind, int zone, decimal from, decimal to)
    {
        var (own, all) = (FirstRemark(kind, zone, from), FirstRemark(kind, LogEvent.NoZone, from));
        var first = own is null || (all is { } other && other.Sequence < own.Value.Sequence) ? all : own;
        return first is { Event: var logged } && logged.At <= to ? logged : null;
    }

    /// <summary>Whether a remark is about a zone itself within a stretch.</summary>
    public bool HasRemark(LogKind kind, int zone, decimal from, decimal to) => FirstRemark(kind, zone, from) is { Event: var logged } && logged.At <= to;

    private LogHoles Of(Zone zone) => _apart.Length == 0 || zone.Controller is null ? _all : _apart[zone.Controller.Index];

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
