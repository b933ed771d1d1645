using WaterScript.Model;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Simulation.Electrical;

/// <summary>
/// What the capacitors of controllers draw from the power supply: from each pulse that they give until they are full again, or until the next pulse.
/// </summary>
internal sealed class Recharging
{
    private readonly Capacitor?[] _capacitors;
    private readonly decimal[] _amounts;
    private readonly PulseValve?[] _zones;
    private readonly ByOutput<PulseValve?> _devices;
    private readonly (long Until, Contribution Contribution)[] _current;

    /// <param name="site">The site.</param>
    /// <param name="limits">The limit of each controller; null where it has none.</param>
    public Recharging(Site site, IReadOnlyList<PowerLimit?> limits)
    {
        _amounts = [.. site.Controllers.Select(controller => AmountOf(controller.Power, limits[controller.Index]))];
        _capacitors = [.. site.Controllers.Select(controller => _amounts[controller.Index] > 0 ? Capacitor.Of(controller) : null)];
        _zones = [.. site.Zones.Select(zone => PulseValve.Of(zone))];
        _devices = new ByOutput<PulseValve?>(site, device => PulseValve.Drawing(device.Controller, device.Valve, device.Wire?.Value));
        _current = [.. site.Controllers.Select(_ => (long.MinValue, default(Contribution)))];
    }

    /// <summary>What a controller draws to recharge its capacitor, as its limit counts it: I = P / U; 0 where that is not known.</summary>
    public static decimal AmountOf(Power? power, PowerLimit? limit) =>
        limit is not null && power is { Recharge: { } watts, Capacitor: not null } && Electricity.VoltsOf(power) is { } volts
            ? Electricity.Current(watts.Value.InBase, volts.Value.InBase) * limit.PerAmpere
            : 0;

    /// <summary>Takes in a switching.</summary>
    /// <returns>Whether it is a pulse after which a capacitor is recharged.</returns>
    public bool Give(in Switching switching, StepOrigin origin)
    {
        if (_capacitors[switching.Controller] is not { } capacitor) return false;
        if ((switching.Zone >= 0 ? _zones[switching.Zone] : _devices[switching.Device, switching.Controller]) is not { } pulse) return false;
        capacitor.Give(switching.Seconds, pulse);
        _current[switching.Controller] = (capacitor.FullAt!.Value, new Contribution(origin, Zone: -1, Device: -1, _amounts[switching.Controller]));
        return true;
    }

    /// <summary>What a controller draws at a moment to recharge; null where that is nothing.</summary>
    public Contribution? At(int controller, long milliseconds) => milliseconds < _current[controller].Until ? _current[controller].Contribution : null;

    /// <summary>When a controller will have recharged, in Unix milliseconds; long past where it has.</summary>
    public long Until(int controller) => _current[controller].Until;
}
