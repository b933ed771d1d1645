using WaterScript.Diagnostics;
using WaterScript.Model;

namespace WaterScript.Timetables.Switchings;

/// <summary>
/// Turns openings in order of their beginning into switchings in the order in which the controllers carry them out. Held are
/// the closes of what is open, and actions that stagger delays. Latching valves close with a pulse, which takes its turn like an open.
/// </summary>
internal sealed class SwitchingStream
{
    /// <summary>Order of what a controller does in one millisecond: a close goes before an open, unless it has to wait for its own.</summary>
    private enum Turn
    {
        Close,
        Open,
        CloseOfOpen,
    }

    private readonly PriorityQueue<Opening, StreamOrder> _closes = new();

    /// <summary>Opens and pulses that need not wait; they are settled when they are due, and so come in order.</summary>
    private readonly MostlySortedQueue<Switching> _due = new();

    /// <summary>What is settled long before: closes that take no pulse, and whatever a stagger delays, which may be by days.</summary>
    private readonly PriorityQueue<Switching, StreamOrder> _ahead = new();
    private readonly StaggeredActions[] _controllers;
    private readonly bool[] _latchingZones;
    private readonly bool[] _latchingDevices;
    private readonly WorkBudget? _budget;
    private long _sequence;

    private SwitchingStream(Site site, WorkBudget? budget)
    {
        _budget = budget;
        _controllers = [.. site.Controllers.Select(controller => new StaggeredActions(controller.Stagger))];
        _latchingZones = [.. site.Zones.Select(zone => zone.Valve is LatchingValve)];
        _latchingDevices = [.. site.Devices.Select(device => device.Valve is LatchingValve)];
    }

    /// <summary>The switchings of the controllers of a site.</summary>
    /// <param name="site">The site.</param>
    /// <param name="openings">Its openings, in order of their beginning, then controller, then output.</param>
    /// <param name="budget">Counts what waits: where a stagger lets less through than is asked for, it grows without an end. May be null.</param>
    public static IEnumerable<Switching> Of(Site site, IEnumerable<Opening> openings, WorkBudget? budget)
    {
        var stream = new SwitchingStream(site, budget);
        foreach (var opening in openings)
        {
            if (opening.Output == 0) continue;
            stream.CloseUpTo(opening.From);
            while (stream.TryTakeBefore(opening.From, out var switching)) yield return switching;
            stream.Open(opening);
        }

        stream.CloseUpTo(long.MaxValue);
        while (stream.TryTakeBefore(long.MaxValue, out var switching)) yield return switching;
    }

    private void Open(in Opening opening)
    {
        var opened = _controllers[opening.Controller].Next(opening.From);
        AddInTurn(opening, opening.From, opened, Turn.Open);
        if (IsLatching(opening)) _closes.Enqueue(opening, new StreamOrder(opening.To, RankOf(opening, Turn.Close), _sequence++));
        else CloseInTime(opening, opened);
    }

    /// <summary>A close that takes no pulse waits for nothing, but for its own open.</summary>
    private void CloseInTime(in Opening opening, long opened)
    {
        var due = opening.To * Switching.MillisecondsInSecond;
        if (due > opened) AddAhead(opening, due, Turn.Close);
        else AddAhead(opening, opened, Turn.CloseOfOpen);
    }

    /// <summary>A controller closes before it opens, so what is due by the beginning of an opening goes before it.</summary>
    private void CloseUpTo(long second)
    {
        while (_closes.TryPeek(out var opening, out _) && opening.To <= second)
        {
            _closes.Dequeue();
            AddInTurn(opening, opening.To, _controllers[opening.Controller].Next(opening.To), Turn.Close);
        }
    }

    private void AddInTurn(in Opening opening, long due, long milliseconds, Turn turn)
    {
        if (milliseconds > due * Switching.MillisecondsInSecond) AddAhead(opening, milliseconds, turn);
        else _due.Add(Action(opening, milliseconds, turn), OrderOf(opening, milliseconds, turn));
    }

    private void AddAhead(in Opening opening, long milliseconds, Turn turn)
    {
        _ahead.Enqueue(Action(opening, milliseconds, turn), OrderOf(opening, milliseconds, turn));
        _budget?.Hold(_ahead.Count, Limits.SwitchingsHeld);
    }

    /// <summary>Nothing that is due from a second on can be done before it, so what comes before is settled.</summary>
    private bool TryTakeBefore(long second, out Switching switching)
    {
        var isAhead = _ahead.TryPeek(out switching, out var order) && (_due.Count == 0 || order.CompareTo(_due.FirstOrder) < 0);
        if (!isAhead)
        {
            if (_due.Count == 0) return false;
            switching = _due.First;
        }

        if (switching.Second >= second) return false;
        if (isAhead) _ahead.Dequeue();
        else _due.RemoveFirst();
        return true;
    }

    private bool IsLatching(in Opening opening) => opening.Zone >= 0 ? _latchingZones[opening.Zone] : _latchingDevices[opening.Device];

    private static Switching Action(in Opening opening, long milliseconds, Turn turn) =>
        new(milliseconds, opening.Controller, opening.Output, turn == Turn.Open, opening.Number, opening.Zone, opening.Device);

    private StreamOrder OrderOf(in Opening opening, long milliseconds, Turn turn) => new(milliseconds, RankOf(opening, turn), _sequence++);

    private static long RankOf(in Opening opening, Turn turn) => ((long)opening.Controller << 48) | ((long)turn << 32) | (uint)opening.Output;
}
