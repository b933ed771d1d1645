using System.Globalization;

namespace WaterScript.Answers.Audit;

/// <summary>
/// Puts the rows of logs in order of time and leaves out what is logged twice. So many rows are held that a row may come that much too late; a log of twice
/// as many rows is put in order as a whole.
/// </summary>
internal sealed class LogOrder(Action<LogSource, int, RowProblem> passOver)
{
    /// <summary>So many rows later than its time a row may come.</summary>
    public const int Window = 32_768;

    private readonly List<Row> _rows = new(2 * Window);
    private readonly PriorityQueue<LogEvent, Key> _ends = new();
    private readonly HashSet<(LogKind, int, long?, string?)> _loggedNow = [];
    private decimal _now = decimal.MinValue;

    /// <summary>Rows that say again what another said.</summary>
    public int Doubled { get; private set; }

    /// <summary>Whether the rows that are put in order first all have a number.</summary>
    public bool IsNumbered { get; private set; }

    /// <summary>What rows say, in order; a row that is a whole watering as its opening and its closing.</summary>
    public IEnumerable<LogEvent> InOrder(IEnumerable<LogSource> rows)
    {
        var isFirst = true;
        foreach (var row in rows)
        {
            if (row.Current!.At < _now)
            {
                passOver(row, row.Current.Place.Line,
                    new RowProblem(string.Create(CultureInfo.InvariantCulture, $"it comes more than {Window} rows later than its time")));
                continue;
            }

            _rows.Add(new Row(Key.Of(row.Current, row.Index), row.Current, row.CurrentEnd, row));
            if (_rows.Count < 2 * Window) continue;
            foreach (var logged in TakeFirst(Window, isFirst)) yield return logged;
            isFirst = false;
        }

        foreach (var logged in TakeFirst(_rows.Count, isFirst)) yield return logged;
        while (_ends.TryDequeue(out var end, out _))
        {
            if (IsNew(end)) yield return end;
        }
    }

    private IEnumerable<LogEvent> TakeFirst(int count, bool isFirst)
    {
        PutInOrder();
        if (isFirst) IsNumbered = _rows.TrueForAll(row => row.Event.Number is not null);
        for (var index = 0; index < count; index++)
        {
            var row = _rows[index];
            while (_ends.TryPeek(out var end, out var key) && key.CompareTo(row.Key) < 0)
            {
                _ends.Dequeue();
                if (IsNew(end)) yield return end;
            }

            if (!IsNew(row.Event)) continue;
            // A row that is a whole watering is written when it is over, and so is what its meter shows.
            yield return row.End is null ? row.Event : row.Event with { Meter = null };
            if (row.End is { } ends) AddEnd(row, ends);
        }

        _rows.RemoveRange(0, count);
    }

    /// <summary>Mostly they are in order already, which is soon seen.</summary>
    private void PutInOrder()
    {
        for (var index = 1; index < _rows.Count; index++)
        {
            if (_rows[index].Key.CompareTo(_rows[index - 1].Key) >= 0) continue;
            _rows.Sort((one, other) => one.Key.CompareTo(other.Key));
            return;
        }
    }

    /// <summary>What a watering ends with comes after it, also where it takes no time.</summary>
    private void AddEnd(in Row row, decimal at)
    {
        var end = row.Event with { At = at, Kind = LogKind.Close, Why = null, Litres = null };
        if (_ends.Count < 2 * Window) _ends.Enqueue(end, Key.Of(end, row.Source.Index));
        else passOver(row.Source, row.Event.Place.Line, new RowProblem("too many waterings are under way at once to look for its end"));
    }

    private bool IsNew(LogEvent logged)
    {
        if (logged.At != _now || _loggedNow.Count >= 2 * Window) _loggedNow.Clear();
        _now = logged.At;
        var isNew = _loggedNow.Add((logged.Kind, logged.Zone, logged.Number, logged.Why));
        if (!isNew) Doubled++;
        return isNew;
    }

    private readonly record struct Row(Key Key, LogEvent Event, decimal? End, LogSource Source);

    /// <summary>Time, then number, then what closes before what opens, then as the logs have it.</summary>
    private readonly record struct Key(decimal At, long Number, bool IsOpen, int File, int Line) : IComparable<Key>
    {
        public static Key Of(LogEvent logged, int file) => new(logged.At, logged.Number ?? 0, logged.Kind == LogKind.Open, file, logged.Place.Line);

        public int CompareTo(Key other)
        {
            if (At != other.At) return At < other.At ? -1 : 1;
            if (Number != other.Number) return Number < other.Number ? -1 : 1;
            if (IsOpen != other.IsOpen) return IsOpen ? 1 : -1;
            return File != other.File ? File.CompareTo(other.File) : Line.CompareTo(other.Line);
        }
    }
}
