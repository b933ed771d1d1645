using System.Collections.Immutable;
using NodaTime;
using WaterScript.Language;
using WaterScript.Quantities;
using WaterScript.Text;

namespace WaterScript.Model;

/// <summary>An output of a controller and what is wired to it: a zone or a device.</summary>
internal sealed record WiredOutput
{
    private WiredOutput(Controller controller, int number, Zone? zone, Device? device)
    {
        Controller = controller;
        Number = number;
        Zone = zone;
        Device = device;
    }

    /// <summary>The controller.</summary>
    public Controller Controller { get; }

    /// <summary>Number of the output, from 1.</summary>
    public int Number { get; }

    /// <summary>The zone, or null for a device.</summary>
    public Zone? Zone { get; }

    /// <summary>The device as this controller has it, or null for a zone.</summary>
    public Device? Device { get; }

    /// <summary>Where it is written which output it is.</summary>
    public Location Place => (Zone is not null ? Zone.WrittenOutput : Device!.WrittenOutput)!.Value.Place;

    /// <summary>Name of the zone or device.</summary>
    public string Name => Zone?.Name ?? Device!.Name;

    /// <summary>Its kind of valve, or null where none is given.</summary>
    public Valve? Valve => Zone is not null ? Zone.Valve : Device!.Valve;

    /// <summary>Voltage that its valve needs to move, or its motor or relay to start; null where that is not given.</summary>
    public Placed<Quantity>? MinimumVoltage => Valve is { } valve ? valve.MinimumVoltage : Device?.MinimumVoltage;

    /// <summary>What it draws as it opens or starts, but for a valve that pulses move; null where that is not given.</summary>
    public Quantity? OpeningCurrent =>
        Valve is { } valve ? (valve as NonLatchingValve)?.Inrush?.Value : Device?.Inrush?.Value.Current ?? Device?.Load?.Value;

    /// <summary>What it is, and its name.</summary>
    public string KindAndName => Device is { } device ? $"{device.Word} {device.Name}" : $"zone {Name}";

    /// <summary>The wire to it, or null where none is given.</summary>
    public Placed<Wire>? Wire => Zone is not null ? Zone.Wire : Device!.Wire;

    /// <summary>Whether a pulse opens it and another closes it; otherwise it is on while it is powered.</summary>
    public bool IsLatching => Valve is LatchingValve;

    /// <summary>Length of its pulses; null where it is not latching, or where the valve does not state it.</summary>
    public Duration? Pulse => (Valve as LatchingValve)?.Pulse;

    /// <summary>All that is wired, by controller in order of the file, then output.</summary>
    public static ImmutableArray<WiredOutput> AllOf(Site site)
    {
        ArgumentNullException.ThrowIfNull(site);
        var zones = site.Zones.Where(zone => !zone.IsHandWatered).Select(zone => new WiredOutput(zone.Controller!, zone.Output, zone, device: null));
        var devices = site.Devices.SelectMany(device => device.ByOutput())
            .Select(device => new WiredOutput(device.Controller, device.Output, zone: null, device));
        return [.. zones.Concat(devices).Where(wired => wired.Number > 0).OrderBy(wired => wired.Controller.Index).ThenBy(wired => wired.Number)];
    }
}
