using WaterScript.Diagnostics;
using WaterScript.Model;

namespace WaterScript.Timetables.Switchings;

/// <summary>
/// Turns runs in order of start into openings in order of their beginning. An opening takes its place in the queue when it
/// begins and leaves when no run to come can lengthen it or go before it, so that only what is open or just ahead is held. What
/// has left is used for the next.
/// </summary>
internal sealed class OpeningStream
{
    private const int WorkOfOutput = 5;

    private readonly MostlySortedQueue<OpeningUnderWay> _begun = new();
    private readonly Stack<OpeningUnderWay> _spare = [];
    private readonly SwitchedOutput?[] _zones;
    private readonly ByOutput<SwitchedOutput> _devices;
    private readonly SwitchedOutput[][] _devicesOfZone;
    private readonly long _earliest;
    private readonly long _notBefore;
    private readonly WorkBudget? _budget;
    private long _sequence;
    private long _number;

    private OpeningStream(Site site, long notBefore, WorkBudget? budget)
    {
        _notBefore = notBefore;
        _budget = budget;
        _devices = new ByOutput<SwitchedOutput>(site, device => SwitchedOutput.Of(device, site.Zones.Length));
        _zones = [.. site.Zones.Select(SwitchedOutput.Of)];
        _devicesOfZone = [.. site.Zones.Select(zone => site.Devices.Where(device => device.RunsBecauseOf(zone))
            .Select(device => _devices[device.Index, zone.Controller!.Index]).ToArray())];
        _earliest = site.Devices.Select(device => _devices[device.Index, device.Controller.Index].EarliestFromStart).Append(0).Min();
    }

    /// <summary>The openings of the outputs of a site.</summary>
    /// <param name="site">The site.</param>
    /// <param name="runs">Its runs, in order of start.</param>
    /// <param name="notBefore">Nothing opens before: what should, such as a pump that leads its zones, opens then. In Unix seconds.</param>
    /// <param name="budget">Counts what the runs do to outputs; may be null.</param>
    public static IEnumerable<Opening> Of(Site site, IEnumerable<Run> runs, long notBefore, WorkBudget? budget)
    {
        var stream = new OpeningStream(site, notBefore, budget);
        foreach (var run in runs)
        {
            while (stream.TryTakeBefore(run.Start, out var opening)) yield return opening;
            stream.Add(run);
        }

        while (stream.TryTakeBefore(long.MaxValue, out var opening)) yield return opening;
    }

    /// <summary>What no run that starts then, or later, can lengthen or go before.</summary>
    private bool TryTakeBefore(long start, out Opening opening)
    {
        var earliest = start == long.MaxValue ? start : start + _earliest;
        while (_begun.Count > 0 && _begun.First is var first && first.From < earliest && first.IsOverBy(start))
        {
            _begun.RemoveFirst();
            first.End();
            _spare.Push(first);
            if (first.IsEmpty) continue;
            opening = first.Numbered(++_number);
            return true;
        }

        opening = default;
        return false;
    }

    /// <summary>What somebody waters by hand opens no output.</summary>
    private void Add(in Run run)
    {
        if (_zones[run.Zone] is not { } zone) return;
        Add(zone, run);
        foreach (var device in _devicesOfZone[run.Zone]) Add(device, run);
        if (run.Injector >= 0) Add(_devices[run.Injector, zone.Controller], run);
    }

    private void Add(SwitchedOutput output, in Run run)
    {
        _budget?.Spend(WorkOfOutput);
        var (from, to) = output.PartOf(run);
        if (to <= from) return;
        if (output.Current is { } current && !current.IsOverBy(from))
        {
            current.Join(to, run.Number);
            return;
        }

        if (!_spare.TryPop(out var begun)) begun = new OpeningUnderWay();
        begun.Begin(output, from, to, run.Number, _notBefore);
        _begun.Add(begun, new StreamOrder(begun.From, output.Rank, _sequence++));
    }
}
