using WaterScript.Language;
using WaterScript.Model;

namespace WaterScript.Simulation.Electrical;

/// <summary>The capacitor of a controller, from pulse to pulse.</summary>
internal sealed class Capacitor
{
    private readonly double? _watts;
    private double _volts;
    private double _busyUntil = double.NegativeInfinity;

    private Capacitor(Power power)
    {
        Farads = (double)power.Capacitor!.Value.InBase / 1e6;
        Full = (double)power.CapacitorVoltage!.Value.InBase;
        _watts = power.Recharge is { } recharge ? (double)(recharge.InBase * (power.RechargeEfficiencyPercent ?? 100m) / 100) : null;
        _volts = Full;
    }

    /// <summary>Without a recharge power it is taken to be full again after this many seconds, and not sooner.</summary>
    private const double UnknownRecharge = 1;

    /// <summary>Its capacitance, in farads.</summary>
    public double Farads { get; }

    /// <summary>Voltage when full.</summary>
    public double Full { get; }

    /// <summary>Power that reaches it, in watts; null where it is not given.</summary>
    public double? Watts => _watts;

    /// <summary>Full, at the beginning; null where a controller has none.</summary>
    public static Capacitor? Of(Controller controller) =>
        controller.Power is { Capacitor: not null, CapacitorVoltage: not null } power ? new Capacitor(power) : null;

    /// <summary>Gives a pulse.</summary>
    /// <param name="at">When, in seconds.</param>
    /// <param name="valve">To which valve.</param>
    public PulseGiven Give(double at, PulseValve valve)
    {
        var idle = Math.Max(0, at - _busyUntil);
        var before = Recharged(idle);
        var after = Electricity.AfterPulse(before, Farads, valve.Ohms, valve.Pulse);
        var given = new PulseGiven(idle, _volts, before, Electricity.AfterPulse(before, Farads, valve.Ohms, valve.ResponseTime), after);
        _volts = after;
        _busyUntil = Math.Max(at, _busyUntil) + valve.Pulse;
        return given;
    }

    /// <summary>Seconds of recharge after which any number of pulses to a valve can follow one another.</summary>
    public double? RestFor(PulseValve valve) => _watts is { } watts
        ? Electricity.RechargeSeconds(Farads, Electricity.AfterPulse(valve.Needs, Farads, valve.Ohms, valve.Pulse), valve.Needs, watts)
        : null;

    private double Recharged(double seconds)
    {
        if (_watts is { } watts)
            return seconds >= Electricity.RechargeSeconds(Farads, _volts, Full, watts) ? Full : Electricity.Recharged(Farads, _volts, watts, seconds);
        return seconds >= UnknownRecharge ? Full : _volts;
    }
}

/// <summary>A pulse and what it does to the capacitor.</summary>
/// <param name="Idle">Seconds since the pulse before was over.</param>
/// <param name="Left">Volts that the pulse before left.</param>
/// <param name="Before">Volts at its beginning.</param>
/// <param name="AtMove">Volts when the plunger moves.</param>
/// <param name="After">Volts at its end.</param>
internal readonly record struct PulseGiven(double Idle, double Left, double Before, double AtMove, double After);
