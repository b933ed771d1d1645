using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Simulation.Restrictions;

/// <summary>
/// Counts what an <c>at most</c> line counts, for the site or for each zone, while pieces of runs pass in order of time. Where
/// two runs water at once, their common time counts once.
/// </summary>
internal sealed class DayLimit(AtMost line, Site site, WeeksFrom weeks)
{
    private readonly Account[] _accounts = new Account[line.PerZone || line.Kind == LimitKind.DepthADay ? site.Zones.Length : 1];
    private readonly List<WateredPiece> _open = [];

    /// <summary>The line.</summary>
    public AtMost Line { get; } = line;

    /// <summary>Takes in the next piece.</summary>
    /// <param name="piece">A piece of a run of a zone that is bound.</param>
    /// <param name="amount">What it comes to: days, seconds, millimetres or zones.</param>
    /// <param name="moment">When the limit was broken; only where it is broken just now.</param>
    /// <returns>Whether it is more than allowed.</returns>
    public bool IsOver(in WateredPiece piece, out decimal amount, out long? moment)
    {
        moment = null;
        if (Line.Kind == LimitKind.ZonesAtATime) return IsOverAtATime(piece, out amount, out moment);
        ref var account = ref _accounts[_accounts.Length == 1 ? 0 : piece.Zone];
        if (Line.Kind == LimitKind.DaysAWeek) return IsOverInWeek(ref account, piece, out amount, out moment);
        return IsOverInDay(ref account, piece, out amount, out moment);
    }

    private bool IsOverInWeek(ref Account account, in WateredPiece piece, out decimal amount, out long? moment)
    {
        var week = weeks.WeekOf(piece.Day);
        var isNewWeek = account.Count == 0 || account.Week != week;
        var isNewDay = isNewWeek || account.Day != piece.Day;
        account.Count = isNewWeek ? 1 : isNewDay ? account.Count + 1 : account.Count;
        (account.Week, account.Day) = (week, piece.Day);
        amount = account.Count;
        var isOver = amount > Line.Amount;
        moment = isOver && isNewDay ? piece.Start : null;
        return isOver;
    }

    private bool IsOverInDay(ref Account account, in WateredPiece piece, out decimal amount, out long? moment)
    {
        if (account.Count == 0 || account.Day != piece.Day) account = new Account { Day = piece.Day, Until = piece.Start };
        account.Count++;
        var from = Math.Max(piece.Start, account.Until);
        var before = account.Seconds;
        account.Seconds += Math.Max(0, piece.End - from);
        account.Until = Math.Max(account.Until, piece.End);
        var most = Line.Kind == LimitKind.TimeADay ? (long)Math.Floor(Line.Amount) : SecondsOf(Line.Amount, site.Zones[piece.Zone]);
        amount = Line.Kind == LimitKind.TimeADay ? account.Seconds : DepthOf(account.Seconds, site.Zones[piece.Zone]);
        moment = before <= most && account.Seconds > most ? from + most - before : null;
        return account.Seconds > most;
    }

    private bool IsOverAtATime(in WateredPiece piece, out decimal amount, out long? moment)
    {
        var start = piece.Start;
        _open.RemoveAll(other => other.End <= start);
        _open.Add(piece);
        amount = _open.Select(other => other.Zone).Distinct().Count();
        var isOver = amount > Line.Amount;
        moment = isOver ? piece.Start : null;
        return isOver;
    }

    /// <summary>Far above what 28 digits leave out of a quotient, and far below a second.</summary>
    private const decimal Rounding = 0.000000000001m;

    /// <summary>The most whole seconds in which a zone gets no more than a depth; what a division leaves out does not count.</summary>
    private static long SecondsOf(decimal millimetres, Zone zone) => zone.MillimetresPerHour is { } rate and > 0
        ? (long)Math.Floor(Math.Min((millimetres * 3600 / rate) + Rounding, long.MaxValue / 2))
        : long.MaxValue / 2;

    private static decimal DepthOf(long seconds, Zone zone) => (zone.MillimetresPerHour ?? 0) * seconds / 3600;

    /// <summary>What is counted of the site or of a zone.</summary>
    private struct Account
    {
        public int Count;
        public int Day;
        public int Week;
        public long Until;
        public long Seconds;
    }
}
