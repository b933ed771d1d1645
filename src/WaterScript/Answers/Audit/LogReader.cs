using WaterScript.Model;

namespace WaterScript.Answers.Audit;

/// <summary>
/// Reads logs as they really are, and row by row, so that one of any length takes the same memory. The logs of a site are read side by side, in order of time.
/// </summary>
internal sealed class LogReader
{
    /// <summary>Rows that are passed over and listed.</summary>
    private const int MostBad = 10_000;

    private readonly LogColumns _columns;
    private readonly LogDictionary _site;
    private readonly List<LogSource> _sources = [];
    private readonly FirstInOrder<(int File, int Line), BadRow> _bad = new(MostBad);
    private LogOrder? _order;

    /// <summary>Reads the logs of a site.</summary>
    /// <param name="site">The site.</param>
    /// <param name="columns">What the logs call their columns.</param>
    /// <param name="controller">The controller that rows are of which name none; null where nobody says.</param>
    public LogReader(Site site, LogColumns columns, Controller? controller = null)
    {
        ArgumentNullException.ThrowIfNull(site);
        (_columns, _site) = (columns, new LogDictionary(site, controller));
    }

    /// <summary>The first rows that were passed over, in order.</summary>
    public IReadOnlyList<BadRow> Bad => _bad.InOrder();

    /// <summary>How many rows were passed over.</summary>
    public long BadRows => _bad.Count;

    /// <summary>Whether one of them may have shown something that is missing now.</summary>
    public bool IsAnyMissed { get; private set; }

    /// <summary>Rows that say again what another said, of those read so far.</summary>
    public int Doubled => _order?.Doubled ?? 0;

    /// <summary>Whether the first rows all have a number.</summary>
    internal bool IsNumbered => _order?.IsNumbered ?? false;

    /// <summary>Opens a log that is a text.</summary>
    /// <inheritdoc cref="Open"/>
    public string? Read(string file, string text) => Open(file, new StringReader(text));

    /// <summary>Opens a log; its first line, which names the columns, is read.</summary>
    /// <param name="file">Its name, for the report.</param>
    /// <param name="text">Its text; stays open, and is read on by <see cref="Events"/>.</param>
    /// <returns>Null, or what stands in the way of reading any of it.</returns>
    public string? Open(string file, TextReader text)
    {
        var (source, why) = LogSource.Open(file, _sources.Count, new LogLines(text), _columns, _site);
        if (source is not null) _sources.Add(source);
        return why;
    }

    /// <summary>What the logs say, in order of time, each once. They can be gone through once.</summary>
    public IEnumerable<LogEvent> Events()
    {
        if (_order is not null) throw new InvalidOperationException("logs are read once");
        _order = new LogOrder(PassOver);
        return _order.InOrder(Merged());
    }

    /// <summary>The rows of all logs; the log whose next row is the earliest comes next.</summary>
    private IEnumerable<LogSource> Merged()
    {
        var coming = new PriorityQueue<LogSource, (decimal, int)>();
        foreach (var source in _sources) Enqueue(source);
        while (coming.TryDequeue(out var source, out _))
        {
            yield return source;
            Enqueue(source);
        }

        void Enqueue(LogSource source)
        {
            if (source.MoveNext(PassOver)) coming.Enqueue(source, (source.Current!.At, source.Index));
        }
    }

    private void PassOver(LogSource source, int line, RowProblem problem)
    {
        IsAnyMissed |= !problem.IsHarmless;
        _bad.Add((source.Index, line), new BadRow(new LogPlace(source.File, line), problem));
    }
}
