using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Simulation.Electrical;

/// <summary>
/// What outputs draw, as the limit of their controller counts it. A latching valve draws nothing but for its pulses, and those from the capacitor where
/// there is one.
/// </summary>
internal sealed class CurrentDraw
{
    private readonly Draw[] _zones;
    private readonly ByOutput<Draw> _devices;
    private readonly long[] _surges;
    private readonly bool[] _pulsedZones;
    private readonly bool[] _pulsedDevices;
    private readonly decimal[] _all;
    private readonly ILookup<int, Zone> _zonesOf;
    private readonly ILookup<int, Device> _devicesOf;

    /// <param name="site">The site.</param>
    /// <param name="limits">The limit of each controller; null where it has none.</param>
    public CurrentDraw(Site site, IReadOnlyList<PowerLimit?> limits)
    {
        _zones = ByZone.Of(site, zone => (zone.Valve, zone.Controller), zone => DrawOf(zone, limits));
        _devices = new ByOutput<Draw>(site, device => Counted(Of(device), limits[device.Controller.Index]));
        _surges = [.. site.Devices.Select(device => (long)(device.Inrush?.Value.Length.TotalMilliseconds ?? 0))];
        _pulsedZones = [.. site.Zones.Select(zone => zone.Valve is LatchingValve)];
        _pulsedDevices = [.. site.Devices.Select(device => device.Valve is LatchingValve)];
        var zones = site.Zones.Where(zone => zone.Controller is not null).ToArray();
        _zonesOf = zones.Where(zone => !zone.IsSpare).ToLookup(zone => zone.Controller!.Index);
        var devices = site.Devices.SelectMany(device => device.ByOutput()).ToArray();
        _devicesOf = devices.Where(device => device.Output > 0).ToLookup(device => device.Controller.Index);
        _all = [.. site.Controllers.Select(controller => Recharging.AmountOf(controller.Power, limits[controller.Index]))];
        foreach (var zone in zones) _all[zone.Controller!.Index] += Most(_zones[zone.Index]);
        foreach (var device in devices) _all[device.Controller.Index] += Most(_devices[device.Index, device.Controller.Index]);
    }

    /// <summary>What it draws for the moment of opening; 0 where it is not known.</summary>
    public decimal Inrush(in Switching switching) => Of(switching).Inrush ?? 0;

    /// <summary>For how many milliseconds it draws that: a motor until it runs; 0 for a valve, which is done in a moment.</summary>
    public long SurgeMilliseconds(in Switching switching) => switching.Device >= 0 ? _surges[switching.Device] : 0;

    /// <summary>What it draws for the moment of closing, which is something only where a pulse closes it; 0 where it is not known.</summary>
    public decimal Closing(in Switching switching) =>
        (switching.Zone >= 0 ? _pulsedZones[switching.Zone] : _pulsedDevices[switching.Device]) ? Inrush(switching) : 0;

    /// <summary>What it draws while it is open; 0 where it is not known.</summary>
    public decimal Holding(in Switching switching) => Of(switching).Holding ?? 0;

    /// <summary>More than all that is wired to a controller, and its capacitor, can draw together, whatever opens when.</summary>
    public decimal AllAtOnce(Controller controller) => _all[controller.Index];

    /// <summary>What is wired to a controller and draws a current that is not given.</summary>
    /// <param name="controller">The controller.</param>
    /// <param name="isInrush">Whether the current for the moment of opening is asked for.</param>
    public (IEnumerable<Zone> Zones, IEnumerable<Device> Devices) Unknown(Controller controller, bool isInrush) => (
        _zonesOf[controller.Index].Where(zone => IsUnknown(_zones[zone.Index], isInrush)),
        _devicesOf[controller.Index].Where(device => IsUnknown(_devices[device.Index, controller.Index], isInrush)));

    private static bool IsUnknown(Draw draw, bool isInrush) => (isInrush ? draw.Inrush : draw.Holding) is null;

    private static decimal Most(Draw draw) => Math.Max(draw.Inrush ?? 0, draw.Holding ?? 0);

    private Draw Of(in Switching switching) => switching.Zone >= 0 ? _zones[switching.Zone] : _devices[switching.Device, switching.Controller];

    /// <summary>Nothing where somebody waters by hand.</summary>
    private static Draw DrawOf(Zone zone, IReadOnlyList<PowerLimit?> limits) =>
        zone.Controller is { } controller ? Counted(Of(zone.Valve, controller.Power), limits[controller.Index]) : new Draw(0, 0);

    private static Draw Counted((decimal? Inrush, decimal? Holding) amperes, PowerLimit? limit) => limit is null
        ? new Draw(amperes.Inrush, amperes.Holding)
        : new Draw(amperes.Inrush * limit.PerAmpere, amperes.Holding * limit.PerAmpere);

    private static (decimal? Inrush, decimal? Holding) Of(Device device) =>
        device.Valve is null ? (device.Inrush?.Value.Current.InBase ?? device.Load?.InBase, device.Load?.InBase) : Of(device.Valve, device.Controller.Power);

    private static (decimal? Inrush, decimal? Holding) Of(Valve? valve, Power? power) => valve switch
    {
        NonLatchingValve { Inrush: var inrush, Holding: var holding } => (inrush?.InBase, holding?.InBase),
        LatchingValve latching => (PulseCurrent(latching, power), 0),
        _ => (null, null),
    };

    /// <summary>
    /// What a pulse draws from the power supply, in A: I = U / R. Nothing where a capacitor gives it, and nothing that is known without a coil.
    /// </summary>
    private static decimal PulseCurrent(LatchingValve valve, Power? power) =>
        power is { Capacitor: null } && Electricity.VoltsOf(power) is { } volts && valve.Coil is { } coil ? Electricity.Current(volts.InBase, coil.InBase) : 0;

    /// <summary>What an output draws for the moment of opening and while it is open; null where that is not known.</summary>
    private sealed record Draw(decimal? Inrush, decimal? Holding);
}
