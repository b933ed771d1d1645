using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Simulation.Electrical;

/// <summary>What the outputs of controllers take from a battery: a power while they are open, and the energy of each pulse.</summary>
internal sealed class EnergyDraw
{
    private readonly CurrentDraw _amperes;
    private readonly Capacitor?[] _capacitors;
    private readonly PulseValve?[] _zones;
    private readonly ByOutput<PulseValve?> _devices;
    private readonly decimal[] _volts;
    private readonly Site _site;

    /// <param name="site">The site.</param>
    /// <param name="battery">The battery that all of it comes from.</param>
    public EnergyDraw(Site site, Battery battery)
    {
        (_site, _amperes) = (site, new CurrentDraw(site, new PowerLimit?[site.Controllers.Length]));
        _capacitors = [.. site.Controllers.Select(Capacitor.Of)];
        _zones = [.. site.Zones.Select(zone => PulseValve.Of(zone))];
        _devices = new ByOutput<PulseValve?>(site, device => PulseValve.Drawing(device.Controller, device.Valve, device.Wire?.Value));
        _volts = [.. site.Controllers.Select(controller => controller.Power?.ContinuousVoltage?.InBase ?? battery.Voltage.InBase)];
    }

    /// <summary>What an output takes while it is open, in watts; 0 where it is not known.</summary>
    public decimal Watts(in Switching switching) => _amperes.Holding(switching) * _volts[switching.Controller];

    /// <summary>
    /// What a switching takes at once, in joules: what a pulse takes from the capacitor, C · (U0² − U1²) / 2, by the efficiency of its recharge; without a
    /// capacitor U² · t / R. 0 for what no pulse switches, and where it is not known. To be asked of each switching once, in order.
    /// </summary>
    public decimal Pulse(in Switching switching)
    {
        var controller = _site.Controllers[switching.Controller];
        if (_capacitors[controller.Index] is not { } capacitor) return WithoutCapacitor(switching);
        if ((switching.Zone >= 0 ? _zones[switching.Zone] : _devices[switching.Device, switching.Controller]) is not { } pulse) return 0;
        var given = capacitor.Give(switching.Seconds, pulse);
        var joules = Electricity.Energy(capacitor.Farads, given.Before) - Electricity.Energy(capacitor.Farads, given.After);
        return (decimal)joules * 100 / (controller.Power!.RechargeEfficiencyPercent?.Value ?? 100);
    }

    /// <summary>The statement that a valve lacks for what it takes to be known; null where it lacks none.</summary>
    public static string? LacksFor(WiredOutput wired) => wired.Valve switch
    {
        LatchingValve { Coil: null } => "coil",
        LatchingValve { Pulse: null } => "pulse",
        NonLatchingValve { Holding: null } => "holding",
        null when wired.Device is { Load: null } => "load",
        null when wired.Zone is not null => "valve",
        _ => null,
    };

    private decimal WithoutCapacitor(in Switching switching)
    {
        var valve = switching.Zone >= 0 ? _site.Zones[switching.Zone].Valve : _site.Devices[switching.Device].Valve;
        if (valve is not LatchingValve { Coil: { } coil, Pulse: { } pulse }) return 0;
        var volts = _volts[switching.Controller];
        return volts * volts / coil.InBase * (decimal)pulse.Value.TotalMilliseconds / Switching.MillisecondsInSecond;
    }
}
