using System.Collections.Immutable;

namespace WaterScript.Comparison;

/// <summary>How what a log tells of a valve ends.</summary>
internal enum ActualEnd
{
    /// <summary>It was closed.</summary>
    Closed,

    /// <summary>The device started anew while it was open.</summary>
    Boot,

    /// <summary>No closing is told.</summary>
    NotSeen,
}

/// <summary>A valve was open, as a log tells it.</summary>
internal sealed record Actual(int Zone, decimal From, decimal To, ActualEnd End, bool IsByHand, LogPlace Place)
{
    /// <summary>Its length in whole seconds.</summary>
    public long Seconds => (long)Math.Round(To - From, MidpointRounding.AwayFromZero);
}

/// <summary>What a log tells, put together: openings of valves, remarks, and when anything is known at all.</summary>
internal sealed class LogHistory
{
    /// <summary>A remark that somebody opens by hand stands this near to the opening, in seconds.</summary>
    private const int HandWithin = 300;

    private readonly IReadOnlyList<LogEvent> _events;
    private readonly long _silence;
    private readonly bool _isNumbered;

    /// <summary>Puts the events of a log together.</summary>
    /// <param name="events">In order of time.</param>
    /// <param name="silence">Seconds without a row after which nothing is known, where rows are not numbered.</param>
    public LogHistory(IReadOnlyList<LogEvent> events, long silence)
    {
        _events = events;
        _silence = silence;
        _isNumbered = events.Count > 0 && events.All(entry => entry.Number is not null);
        Actuals = [.. events.Where(entry => entry.Kind == LogKind.Open && entry.Zone >= 0).GroupBy(entry => entry.Zone).SelectMany(zone => Of(zone.Key))];
    }

    /// <summary>What was open, by zone, then in order.</summary>
    public ImmutableArray<Actual> Actuals { get; }

    /// <summary>A remark of a kind about a zone, or about all, within a stretch; null for none.</summary>
    public LogEvent? Remark(LogKind kind, int zone, decimal from, decimal to) =>
        _events.FirstOrDefault(entry => entry.Kind == kind && (entry.Zone == zone || entry.Zone < 0) && entry.At >= from && entry.At <= to);

    /// <summary>
    /// Whether the log has a hole nowhere in a stretch: its rows are numbered without a gap, or none follows the one before by more than the silence.
    /// Silence itself is never taken for "nothing happened".
    /// </summary>
    public bool IsKnown(decimal from, decimal to)
    {
        if (_events.Count == 0 || from < _events[0].At || to > _events[^1].At) return false;
        for (var index = IndexUpTo(from); index + 1 < _events.Count && _events[index].At < to; index++)
        {
            if (!Follows(_events[index], _events[index + 1])) return false;
        }

        return true;
    }

    private bool Follows(LogEvent before, LogEvent after) =>
        after.Kind != LogKind.Boot && (_isNumbered ? after.Number == before.Number + 1 || after.Number == before.Number : after.At - before.At <= _silence);

    /// <summary>The last row at a moment or before it, or the first: what a hole ends with is known again.</summary>
    private int IndexUpTo(decimal moment)
    {
        var (low, high) = (0, _events.Count - 1);
        while (low < high)
        {
            var middle = (low + high + 1) / 2;
            if (_events[middle].At <= moment) low = middle;
            else high = middle - 1;
        }

        return low;
    }

    private IEnumerable<Actual> Of(int zone)
    {
        LogEvent? open = null;
        foreach (var entry in _events.Where(entry => entry.Kind == LogKind.Boot || (entry.Zone == zone && (entry.Kind is LogKind.Open or LogKind.Close))))
        {
            if (open is not null)
            {
                yield return entry.Kind switch
                {
                    LogKind.Boot => Ended(open, entry.At, ActualEnd.Boot, zone),
                    LogKind.Close when !_isNumbered || IsKnown(open.At, entry.At) => Ended(open, entry.At, ActualEnd.Closed, zone),
                    _ => Ended(open, open.At, ActualEnd.NotSeen, zone),
                };
            }

            open = entry.Kind == LogKind.Open ? entry : null;
        }

        if (open is not null) yield return Ended(open, open.At, ActualEnd.NotSeen, zone);
    }

    private Actual Ended(LogEvent open, decimal to, ActualEnd end, int zone) => new(
        zone,
        open.At,
        to,
        end,
        string.Equals(open.Why, "hand", StringComparison.OrdinalIgnoreCase)
            || string.Equals(open.Why, "manual", StringComparison.OrdinalIgnoreCase)
            || _events.Any(entry => entry.Kind == LogKind.Hand && entry.Zone == zone && Math.Abs(entry.At - open.At) <= HandWithin),
        open.Place);
}
