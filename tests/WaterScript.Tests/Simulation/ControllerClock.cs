using WaterScript.Model;

namespace WaterScript.Tests.Simulation;

/// <summary>Something that a controller does, as the reference has it.</summary>
internal readonly record struct ReferenceSwitching(long At, int Controller, int Output, bool IsOpen, int Opening);

/// <summary>
/// A controller that lives through its openings millisecond by millisecond. What needs its turn stands in a line: opens, and
/// closes that take a pulse. Other closes are done when they are due, unless their output has not been opened yet.
/// </summary>
internal sealed class ControllerClock
{
    private readonly int _controller;
    private readonly int _stagger;
    private readonly List<Wish> _wishes;
    private readonly Queue<Wish> _line = new();
    private readonly List<Wish> _closes = [];
    private readonly HashSet<int> _opened = [];
    private readonly List<ReferenceSwitching> _done = [];
    private long? _last;

    private ControllerClock(Controller controller, List<Wish> wishes)
    {
        _controller = controller.Index;
        _stagger = (int)Math.Ceiling(controller.Stagger.TotalMilliseconds);
        _wishes = wishes;
    }

    /// <summary>What the controllers of a site do, in order of time, then of the controllers in the file.</summary>
    /// <param name="site">The site.</param>
    /// <param name="openings">Its openings; the place of one in the list, from 1, is its number.</param>
    public static List<ReferenceSwitching> Live(Site site, IReadOnlyList<ReferenceOpening> openings)
    {
        var all = site.Controllers.SelectMany(controller => new ControllerClock(controller, [.. WishesOf(site, controller, openings)]).Run());
        return [.. all.OrderBy(switching => switching.At).ThenBy(switching => switching.Controller)];
    }

    private static IEnumerable<Wish> WishesOf(Site site, Controller controller, IReadOnlyList<ReferenceOpening> openings)
    {
        for (var index = 0; index < openings.Count; index++)
        {
            var opening = openings[index];
            var output = opening.Output;
            var valve = opening.Zone >= 0 ? site.Zones[opening.Zone].Valve : site.Devices[opening.Device].Valve;
            if (opening.Controller != controller.Index || output == 0) continue;
            yield return new Wish(opening.From * 1000, true, output, index + 1, valve is LatchingValve);
            yield return new Wish(opening.To * 1000, false, output, index + 1, valve is LatchingValve);
        }
    }

    private List<ReferenceSwitching> Run()
    {
        _wishes.Sort((one, other) => (one.Due, one.IsOpen, one.Output).CompareTo((other.Due, other.IsOpen, other.Output)));
        var next = 0;
        long now = 0;
        while (next < _wishes.Count || _line.Count > 0 || _closes.Count > 0)
        {
            now = _line.Count == 0 && _closes.Count == 0 ? _wishes[next].Due : now + 1;
            for (; next < _wishes.Count && _wishes[next].Due == now; next++)
            {
                if (_wishes[next].IsOpen || _wishes[next].IsLatching) _line.Enqueue(_wishes[next]);
                else _closes.Add(_wishes[next]);
            }

            CloseWhatIsOpen(now);
            while (IsTurn(now)) Do(TakeTurn(now), now);

            CloseWhatIsOpen(now);
        }

        return _done;
    }

    /// <summary>What closes in one millisecond closes by output, whether it took its turn or needs none.</summary>
    private void CloseWhatIsOpen(long now)
    {
        // Most milliseconds of a long wait are like this, and there are millions.
        if (!IsTurn(now) && !_closes.Exists(close => _opened.Contains(close.Opening))) return;
        var closing = _closes.Where(close => _opened.Contains(close.Opening)).ToList();
        _closes.RemoveAll(closing.Contains);
        while (IsTurn(now) && !_line.Peek().IsOpen) closing.Add(TakeTurn(now));
        foreach (var close in closing.OrderBy(close => close.Output)) Do(close, now);
    }

    private bool IsTurn(long now) => _line.Count > 0 && (_last is null || now - _last >= _stagger);

    private Wish TakeTurn(long now)
    {
        _last = now;
        return _line.Dequeue();
    }

    private void Do(Wish wish, long now)
    {
        if (wish.IsOpen) _opened.Add(wish.Opening);
        _done.Add(new ReferenceSwitching(now, _controller, wish.Output, wish.IsOpen, wish.Opening));
    }

    private readonly record struct Wish(long Due, bool IsOpen, int Output, int Opening, bool IsLatching);
}
