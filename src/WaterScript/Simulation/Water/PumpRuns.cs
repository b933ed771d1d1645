using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Simulation.Water;

/// <summary>
/// The runs of a pump or a master that is off for some of the time in which its zones are open: after the first one opens where it starts late, and
/// before the last one closes where it stops early. A run waits here until it is known how much of it is without water.
/// </summary>
internal sealed class PumpRuns
{
    private readonly HashSet<int> _zones;
    private readonly long _through;
    private readonly Action<PumpRuns, Run, long> _settled;
    private readonly Queue<Run> _waiting = new();
    private bool _isBegun;

    private PumpRuns(Device device, Action<PumpRuns, Run, long> settled)
    {
        (Device, _settled) = (device, settled);
        _zones = [.. device.Zones.Select(zone => zone.Index)];
        _through = Math.Max(device.Bridges.WholeSeconds(), (device.StopsAfter - device.StartsAfter).WholeSeconds());
        Late = Math.Max(0, device.StartsAfter.WholeSeconds());
        Early = Math.Max(0, -device.StopsAfter.WholeSeconds());
    }

    /// <summary>The pump or master.</summary>
    public Device Device { get; }

    /// <summary>Seconds by which it starts after its first zone opens.</summary>
    public long Late { get; }

    /// <summary>Seconds by which it stops before its last zone closes.</summary>
    public long Early { get; }

    /// <summary>When the first zone opens, in Unix seconds.</summary>
    public long From { get; private set; }

    /// <summary>When the last zone closes, of those that are known.</summary>
    public long To { get; private set; }

    /// <summary>The devices of a site that an output switches, and that are off for some of the time in which their zones are open.</summary>
    /// <param name="site">The site.</param>
    /// <param name="settled">Is given each run, and for how many seconds of it no water flows.</param>
    public static PumpRuns[] Of(Site site, Action<PumpRuns, Run, long> settled) => [.. site.Devices
        .SelectMany(device => device.ByOutput())
        .Where(device => device.Kind != DeviceKind.Injector && device.Output > 0)
        .Select(device => new PumpRuns(device, settled))
        .Where(runs => runs.Late + runs.Early > 0)];

    /// <summary>Whether it is on for the zone of an index.</summary>
    public bool Serves(int zone) => _zones.Contains(zone);

    /// <summary>Takes in the next run, in order of start.</summary>
    public void Add(in Run run)
    {
        if (!_isBegun || To + _through < run.Start)
        {
            Finish();
            (_isBegun, From, To) = (true, run.Start, run.End);
        }

        To = Math.Max(To, run.End + run.Overlap);
        _waiting.Enqueue(run);
        while (_waiting.TryPeek(out var first) && first.End <= To - Early) Settle(_waiting.Dequeue());
    }

    /// <summary>No run is to come that it would stay on for.</summary>
    public void Finish()
    {
        while (_waiting.TryDequeue(out var run)) Settle(run);
    }

    private void Settle(in Run run)
    {
        var before = Math.Max(0, From + Late - run.Start);
        var after = Math.Max(0, run.End - (To - Early));
        var without = Math.Min(run.Seconds, before + after);
        if (without > 0) _settled(this, run, without);
    }
}
