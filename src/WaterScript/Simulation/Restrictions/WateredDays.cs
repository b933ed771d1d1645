using WaterScript.Calendars;
using WaterScript.Timetables;

namespace WaterScript.Simulation.Restrictions;

/// <summary>Splits runs at the midnights of the site and gives the pieces in order of time.</summary>
internal sealed class WateredDays(ZoneClock clock)
{
    private readonly PriorityQueue<WateredPiece, long> _later = new();

    /// <summary>The pieces that begin no later than the next run does.</summary>
    public IEnumerable<WateredPiece> Before(Run run)
    {
        while (_later.TryPeek(out _, out var start) && start <= run.Start) yield return _later.Dequeue();
        var day = clock.At(run.Start).Day;
        var midnight = clock.StartOfDay(day + 1);
        var (from, isFirst) = (run.Start, true);
        while (from < run.End)
        {
            var piece = new WateredPiece(from, Math.Min(midnight, run.End), day, run.Zone, run.Schedule, run.StartNumber, run.Day, run.PassStart);
            if (isFirst) yield return piece;
            else if (piece.Start < piece.End) _later.Enqueue(piece, piece.Start);
            (from, isFirst) = (midnight, false);
            midnight = clock.StartOfDay(++day + 1);
        }
    }

    /// <summary>What is left when no run comes any more.</summary>
    public IEnumerable<WateredPiece> Rest()
    {
        while (_later.Count > 0) yield return _later.Dequeue();
    }
}
