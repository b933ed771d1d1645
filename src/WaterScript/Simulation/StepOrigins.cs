using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Simulation;

/// <summary>
/// Remembers who asked for what is open, for as long as it is. Runs come in order of start and openings in order of their
/// beginning, so only the runs of a moment are held, and the openings that are not closed yet.
/// </summary>
internal sealed class StepOrigins
{
    private readonly List<(long Start, StepOrigin Asker)> _runs = [];
    private readonly Dictionary<long, StepOrigin> _openings = [];
    private readonly long _latest;
    private (long Opening, StepOrigin Asker) _asked = (-1, default);
    private long _forgotten;
    private int _past;

    public StepOrigins(Site site) => _latest = site.Devices.Select(LatestStart).Append(0).Max();

    /// <summary>Who asked first for an opening that is not closed yet.</summary>
    public StepOrigin Of(long opening)
    {
        // All who observe a switching ask, one after the other.
        if (opening != _asked.Opening) _asked = (opening, _openings[opening]);
        return _asked.Asker;
    }

    /// <summary>Takes in the next run.</summary>
    public void Add(in Run run) => _runs.Add((run.Start, new StepOrigin(run.Schedule, run.Step)));

    /// <summary>Takes in the next opening.</summary>
    public void Add(in Opening opening)
    {
        if (opening.Output > 0) _openings[opening.Number] = _runs[(int)(opening.Runs[0] - 1 - _forgotten)].Asker;
        while (_past < _runs.Count && _runs[_past].Start < opening.From - _latest) _past++;
        if (_past < 1024 || _past < _runs.Count / 2) return;
        _runs.RemoveRange(0, _past);
        _forgotten += _past;
        _past = 0;
    }

    /// <summary>An opening is closed.</summary>
    public void Forget(in Switching switching)
    {
        if (!switching.IsOpen) _openings.Remove(switching.Opening);
    }

    /// <summary>The most seconds from the start of a run to that of what a device does for it.</summary>
    private static long LatestStart(Device device) => device.StartsAfter.WholeSeconds() + (device.After?.WholeSeconds() ?? 0);
}
