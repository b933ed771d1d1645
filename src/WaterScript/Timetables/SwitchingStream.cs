using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>
/// Turns openings in order of their beginning into switchings in the order in which the controllers carry them out. Held are
/// the closes of what is open, and actions that spacing delays. Latching valves close with a pulse, which takes its turn like an open.
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
    private readonly PriorityQueue<Switching, StreamOrder> _ready = new();
    private readonly SpacedActions[] _controllers;
    private readonly bool[] _latchingZones;
    private readonly bool[] _latchingDevices;
    private long _sequence;

    private SwitchingStream(Site site)
    {
        _controllers = [.. site.Controllers.Select(controller => new SpacedActions(controller.Spacing))];
        _latchingZones = [.. site.Zones.Select(zone => zone.Valve is LatchingValve)];
        _latchingDevices = [.. site.Devices.Select(device => device.Valve is LatchingValve)];
    }

    /// <summary>The switchings of the controllers of a site.</summary>
    /// <param name="site">The site.</param>
    /// <param name="openings">Its openings, in order of their beginning, then controller, then output.</param>
    public static IEnumerable<Switching> Of(Site site, IEnumerable<Opening> openings)
    {
        var stream = new SwitchingStream(site);
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
        Add(opening, opened, Turn.Open);
        if (IsLatching(opening)) _closes.Enqueue(opening, new StreamOrder(opening.To, RankOf(opening, Turn.Close), _sequence++));
        else CloseInTime(opening, opened);
    }

    /// <summary>A close that takes no pulse waits for nothing, but for its own open.</summary>
    private void CloseInTime(in Opening opening, long opened)
    {
        var due = opening.To * Switching.MillisecondsInSecond;
        if (due > opened) Add(opening, due, Turn.Close);
        else Add(opening, opened, Turn.CloseOfOpen);
    }

    /// <summary>A controller closes before it opens, so what is due by the beginning of an opening goes before it.</summary>
    private void CloseUpTo(long second)
    {
        while (_closes.TryPeek(out var opening, out _) && opening.To <= second)
        {
            _closes.Dequeue();
            Add(opening, _controllers[opening.Controller].Next(opening.To), Turn.Close);
        }
    }

    private void Add(in Opening opening, long milliseconds, Turn turn)
    {
        var switching = new Switching(milliseconds, opening.Controller, opening.Output, turn == Turn.Open, opening.Number, opening.Zone, opening.Device);
        _ready.Enqueue(switching, new StreamOrder(milliseconds, RankOf(opening, turn), _sequence++));
    }

    /// <summary>Nothing that is due from a second on can be done before it, so what comes before is settled.</summary>
    private bool TryTakeBefore(long second, out Switching switching)
    {
        if (!_ready.TryPeek(out switching, out _) || switching.Second >= second) return false;
        _ready.Dequeue();
        return true;
    }

    private bool IsLatching(in Opening opening) => opening.Zone >= 0 ? _latchingZones[opening.Zone] : _latchingDevices[opening.Device];

    private static long RankOf(in Opening opening, Turn turn) => ((long)opening.Controller << 48) | ((long)turn << 32) | (uint)opening.Output;
}
