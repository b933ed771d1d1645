using WaterScript.Answers.Audit.Water;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Audit;

/// <summary>
/// What was meant for a zone and what the log has of it, side by side in order of time. What lies so near together that it may belong together is held
/// until it is complete, and then judged; the rest is gone.
/// </summary>
internal sealed class ZoneRecord(Zone zone, AuditGround ground, AuditTally tally)
{
    /// <summary>Waterings that wait for a valve to close, or for what was meant to end; beyond them it is taken not to.</summary>
    private const int MostWaiting = 10_000;

    /// <summary>Waterings that may lie near together; of more, the next that touches none begins anew.</summary>
    private const int MostTogether = 10_000;

    private readonly Queue<Meant> _meantNext = new();
    private readonly Queue<Actual> _actualNext = new();
    private readonly decimal _apart = Math.Max(2 * ground.Tolerance, WateringMatch.HandWithin);
    private List<Meant> _meant = [];
    private List<Actual> _actual = [];
    private decimal _end;
    private Meant? _growing;
    private LogEvent? _open;
    private MeteredVolume _volume = new();

    /// <summary>Whether the log says that its valve is open.</summary>
    public bool IsOpen => _open is not null;

    /// <summary>Takes in a run that was meant; they come in order. What touches is one opening.</summary>
    public void Add(in Run run)
    {
        var end = run.End + run.Overlap;
        if (_growing is { } growing && run.Start <= growing.To)
        {
            _growing = growing with { To = Math.Max(growing.To, end) };
            return;
        }

        EndMeant();
        _growing = new Meant(run.Schedule, run.Day, run.PassStart, run.Start, end);
    }

    /// <summary>Takes in that the valve opens or closes, or that the device starts anew.</summary>
    public void Add(LogEvent logged)
    {
        if (_open is { } open)
        {
            var isClosed = logged.Kind == LogKind.Close && (!ground.Knowledge.IsNumbered || ground.Knowledge.IsKnown(zone, open.At, logged.At));
            ground.Meter.Close(zone.Index, logged.At);
            if (logged.Kind == LogKind.Boot) EndActual(Math.Max(open.At, ground.Knowledge.Before(zone) ?? open.At), ActualEnd.Boot, logged.At);
            else if (isClosed) EndActual(logged.At, ActualEnd.Closed);
            else EndActual(open.At, ActualEnd.NotSeen);
        }

        if (logged.Kind == LogKind.Open) (_open, _volume) = (logged, ground.Meter.Open(logged));
    }

    /// <summary>Puts together what is complete.</summary>
    /// <param name="now">Up to when the log is read, in Unix seconds.</param>
    /// <param name="nextRun">When the next run starts that was not taken in yet.</param>
    public void Settle(decimal now, long nextRun)
    {
        if (_growing is { } grown && grown.To < nextRun) EndMeant();
        if (_open is not null && _meantNext.Count > MostWaiting) EndActual(_open.At, ActualEnd.NotSeen);
        if (_growing is { } growing && _actualNext.Count > MostWaiting)
        {
            EndMeant();
            _growing = growing with { From = growing.To };
        }

        Merge(_open is { } open ? open.At : KnownTo(now), _growing?.From ?? nextRun);
    }

    /// <summary>
    /// Up to when it is known what its controller did: the next row of that may yet say that nothing is missing, whatever others log meanwhile.
    /// One that has been silent for very long is not waited for.
    /// </summary>
    private decimal KnownTo(decimal now) => _meantNext.Count > MostWaiting ? now : ground.Knowledge.LastOf(zone) ?? decimal.MinValue;

    /// <summary>Judges all that is left.</summary>
    public void Finish()
    {
        EndMeant();
        if (_open is { } open) EndActual(open.At, ActualEnd.NotSeen);
        Merge(decimal.MaxValue, long.MaxValue);
        Judge();
    }

    private void EndMeant()
    {
        if (_growing is { } growing && growing.To > growing.From) _meantNext.Enqueue(growing);
        _growing = null;
    }

    private void EndActual(decimal to, ActualEnd end, decimal? mayBeTo = null)
    {
        var actual = new Actual(_open!.At, to, end, _open.Why, _open.Place, _volume) { MayBeTo = mayBeTo ?? to };
        _actualNext.Enqueue(actual);
        if (end != ActualEnd.NotSeen) tally.AddActual(zone, actual.Seconds);
        _open = null;
    }

    /// <summary>Takes the next of both in order, as long as none can come before it any more.</summary>
    private void Merge(decimal actualKnownTo, decimal meantKnownTo)
    {
        while (true)
        {
            var (hasMeant, hasActual) = (_meantNext.TryPeek(out var meant), _actualNext.TryPeek(out var actual));
            if (hasMeant && (!hasActual || meant!.From <= actual!.From))
            {
                if (meant!.From > actualKnownTo) return;
                Begin(meant.From, meant.To);
                _meant.Add(_meantNext.Dequeue());
            }
            else
            {
                if (!hasActual || actual!.From > meantKnownTo) return;
                Begin(actual.From, actual.To);
                _actual.Add(_actualNext.Dequeue());
            }
        }
    }

    /// <summary>What is so far from all before it that it cannot belong to any of them lets those be judged.</summary>
    private void Begin(decimal from, decimal to)
    {
        var together = _meant.Count + _actual.Count;
        if (together > 0 && (from - _end > _apart || (together >= MostTogether && from > _end) || together >= 2 * MostTogether)) Judge();
        _end = Math.Max(_end, to);
    }

    private void Judge()
    {
        if (_meant.Count + _actual.Count == 0) return;
        foreach (var entry in new WateringMatch(zone, _meant, _actual, ground).Judge()) tally.Add(entry);
        (_meant, _actual) = ([], []);
    }
}
