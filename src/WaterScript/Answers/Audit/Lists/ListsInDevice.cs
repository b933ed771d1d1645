using System.Collections.Immutable;
using WaterScript.Timetables;

namespace WaterScript.Answers.Audit.Lists;

/// <summary>
/// Which of several lists a device had, and so what was meant, as the rows of its log go by. That is the list that the rows name, on the dates of that
/// list; else the one that was due: of those of the date, the latest.
/// </summary>
internal sealed class ListsInDevice
{
    private const int None = -1;

    private readonly ImmutableArray<GivenList> _lists;
    private readonly long[] _latestUntil;
    private readonly Named[] _named;
    private readonly long _tolerance;
    private readonly SortedDictionary<int, MissedUpdate> _missed = [];
    private string? _lastText;
    private int _lastIndex = None;

    /// <param name="lists">In order of time, as <see cref="InOrder"/> gives them.</param>
    /// <param name="controllers">How many controllers the site has.</param>
    /// <param name="tolerance">Seconds by which the clock of a row may differ.</param>
    public ListsInDevice(ImmutableArray<GivenList> lists, int controllers, long tolerance)
    {
        (_lists, _tolerance) = (lists, tolerance);
        _named = [.. Enumerable.Repeat(new Named(None, None, long.MinValue, long.MinValue), Math.Max(1, controllers))];
        _latestUntil = new long[lists.Length];
        for (var index = 0; index < lists.Length; index++)
            _latestUntil[index] = Math.Max(lists[index].Until, index == 0 ? long.MinValue : _latestUntil[index - 1]);
    }

    /// <summary>Lists that were due while the device had another, in order.</summary>
    public ImmutableArray<MissedUpdate> Missed => [.. _missed.Values];

    /// <summary>Each list once, in order of time; of those of one date, what is for one controller comes after what is for all.</summary>
    public static ImmutableArray<GivenList> InOrder(IEnumerable<GivenList> lists) =>
        [.. lists.DistinctBy(list => list.Hash).OrderBy(list => list.From).ThenBy(list => list.Controller is not null)];

    /// <summary>Takes in the next row, before the runs that are meant by then are looked at.</summary>
    public void Add(LogEvent logged)
    {
        if (logged.List is not { } text) return;
        if (!ReferenceEquals(text, _lastText)) (_lastText, _lastIndex) = (text, IndexOf(text));
        if (logged.Controller != LogEvent.NoController) Add(logged, logged.Controller);
        else for (var controller = 0; controller < _named.Length; controller++) Add(logged, controller);
    }

    /// <summary>Whether a run of a list was meant.</summary>
    /// <param name="run">The run.</param>
    /// <param name="list">Index of its list.</param>
    /// <param name="controller">Index of the controller that it is of.</param>
    public bool IsMeant(in Run run, int list, int controller)
    {
        var (at, named) = (run.PassStart, _named[controller]);
        var own = at < named.Since ? named.Before : named.Now;
        return list == (own != None && _lists[own].Covers(at, controller) ? own : DueAt(at, controller));
    }

    private void Add(LogEvent logged, int controller)
    {
        var (at, named) = ((long)logged.At, _named[controller]);
        if (_lastIndex != None && !_lists[_lastIndex].IsFor(controller)) return;
        _named[controller] = _lastIndex == named.Now ? named with { Last = at } : new Named(_lastIndex, named.Now, ChangeOf(named, at), at);
        if (_lastIndex != None && logged.Kind != LogKind.Close) AddMissed(at, controller);
    }

    /// <summary>When the list came that a row names first: when it was due, if that lies after the rows that name another; else with this row.</summary>
    private long ChangeOf(Named before, long at)
    {
        if (_lastIndex != None && _lists[_lastIndex].From is var due && due > before.Last && due <= at) return due;
        return at - _tolerance;
    }

    /// <summary>What a pass has begun with it is ended with, so a list may still be named after its dates.</summary>
    private void AddMissed(long at, int controller)
    {
        var due = DueAt(at, controller);
        if (due == None || due == _lastIndex || at < _lists[due].From + _tolerance) return;
        var had = _lists[_lastIndex];
        if (had.From > _lists[due].From || (had.Until <= _lists[due].From && at < had.End + _tolerance)) return;
        _missed[due] = _missed.TryGetValue(due, out var known) && known.Had == had ? known with { Last = at } : new MissedUpdate(_lists[due], had, at, at);
    }

    private int DueAt(long at, int controller)
    {
        for (var index = LastBegun(at); index >= 0 && _latestUntil[index] > at; index--)
        {
            if (_lists[index].Covers(at, controller)) return index;
        }

        return None;
    }

    /// <summary>The last list that begins by a moment.</summary>
    private int LastBegun(long at)
    {
        var (low, high) = (0, _lists.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (_lists[middle].From <= at) low = middle + 1;
            else high = middle;
        }

        return low - 1;
    }

    private int IndexOf(string hash)
    {
        if (hash.Length < AuditedList.FewestDigits) return None;
        for (var index = 0; index < _lists.Length; index++)
        {
            if (_lists[index].Hash.StartsWith(hash, StringComparison.OrdinalIgnoreCase)) return index;
        }

        return None;
    }

    /// <summary>What the rows of a controller name.</summary>
    /// <param name="Now">The list that the last one names.</param>
    /// <param name="Before">The one that rows before it named.</param>
    /// <param name="Since">From when the device has the one that is named now.</param>
    /// <param name="Last">The last row that names it.</param>
    private readonly record struct Named(int Now, int Before, long Since, long Last);
}
