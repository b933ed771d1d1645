using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Timetables.Switchings;

/// <summary>What the runs of its zones do to one output.</summary>
internal sealed class SwitchedOutput
{
    private readonly Device? _device;

    private SwitchedOutput(Device? device, int zone, Controller controller, int output, int rank)
    {
        _device = device;
        Zone = zone;
        Controller = controller.Index;
        Output = output;
        Rank = ((long)controller.Index << 48) | ((long)output << 24) | (uint)rank;
    }

    public int Zone { get; }

    public int Device => _device?.Index ?? -1;

    public int Controller { get; }

    public int Output { get; }

    /// <summary>Orders openings that begin together.</summary>
    public long Rank { get; }

    /// <summary>Seconds from the start of a run to that of what it asks of this output; may be negative.</summary>
    public long Lead { get; private init; }

    /// <summary>Seconds from the end of a run to that of what it asks of this output; may be negative.</summary>
    public long Lag { get; private init; }

    /// <summary>The longest gap between runs over which the output stays on.</summary>
    public long Through { get; private init; }

    /// <summary>The opening that may still grow, or null.</summary>
    public OpeningUnderWay? Current { get; set; }

    /// <summary>That of a zone; null where somebody waters it by hand.</summary>
    public static SwitchedOutput? Of(Zone zone) =>
        zone.Controller is { } controller ? new(device: null, zone.Index, controller, zone.Output, zone.Index) : null;

    /// <summary>
    /// Staying on through a gap joins before lead and lag are added, and what touches after that is one opening too. Both are
    /// a limit on the gap between runs, so the greater one holds.
    /// </summary>
    public static SwitchedOutput Of(Device device, int zones)
    {
        var lead = device.StartsAfter.WholeSeconds();
        var lag = device.StopsAfter.WholeSeconds();
        return new SwitchedOutput(device, zone: -1, device.Controller, device.Output, zones + device.Index)
        {
            Lead = lead,
            Lag = lag,
            Through = Math.Max(device.Bridges.WholeSeconds(), lag - lead),
        };
    }

    /// <summary>The part of a run that concerns this output; empty when none does.</summary>
    public (long From, long To) PartOf(in Run run)
    {
        if (_device is not { Kind: DeviceKind.Injector }) return (run.Start, run.End + run.Overlap);
        var from = run.Start + (_device.After?.WholeSeconds() ?? 0);
        return (from, run.Dose == 0 ? run.End - (_device.Rinse?.WholeSeconds() ?? 0) : from + Math.Max(0, run.Dose));
    }

    /// <summary>Seconds from the start of a run to the earliest that it can turn this output on.</summary>
    public long EarliestFromStart => Lead + (_device?.After?.WholeSeconds() ?? 0);
}
