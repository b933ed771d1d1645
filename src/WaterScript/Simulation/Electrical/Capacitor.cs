using System.Numerics;
using NodaTime;
using WaterScript.Language;
using WaterScript.Model;

namespace WaterScript.Simulation.Electrical;

/// <summary>The capacitor of a controller, from pulse to pulse.</summary>
internal sealed class Capacitor
{
    private readonly Ratio? _perSecond;
    private readonly SquareVolts _full;
    private SquareVolts _held;
    private decimal? _busyUntil;

    private Capacitor(Power power)
    {
        Farads = (double)power.Capacitor!.Value.InBase / 1e6;
        Full = (double)power.CapacitorVoltage!.Value.InBase;
        _full = _held = SquareVolts.Of(power.CapacitorVoltage.Value.InBase);
        if (power.Recharge is not { } recharge) return;
        var watts = recharge.InBase * (power.RechargeEfficiencyPercent ?? 100m) / 100;
        (Watts, _perSecond) = ((double)watts, Ratio.Of(2) * Ratio.Of(watts) * Ratio.Of(MicrofaradsInFarad) / Ratio.Of(power.Capacitor.Value.InBase));
    }

    /// <summary>Without a recharge power it is taken to be full again after this many seconds, and not sooner.</summary>
    private const decimal UnknownRecharge = 1;

    private const decimal MicrofaradsInFarad = 1_000_000;

    /// <summary>Its capacitance, in farads.</summary>
    public double Farads { get; }

    /// <summary>Voltage when full.</summary>
    public double Full { get; }

    /// <summary>Power that reaches it, in watts; null where it is not given.</summary>
    public double? Watts { get; }

    /// <summary>Full, at the beginning; null where a controller has none.</summary>
    public static Capacitor? Of(Controller controller) =>
        controller.Power is { Capacitor: not null, CapacitorVoltage: not null } power ? new Capacitor(power) : null;

    /// <summary>Gives a pulse.</summary>
    /// <param name="at">When, in seconds.</param>
    /// <param name="valve">To which valve.</param>
    public PulseGiven Give(decimal at, PulseValve valve)
    {
        var idle = _busyUntil is { } until ? Math.Max(0, at - until) : (decimal?)null;
        var left = _held.Volts;
        var before = idle is { } seconds ? Recharged(seconds) : _full;
        _held = before.Times(valve.KeptBehindPulse);
        _busyUntil = Math.Max(at, _busyUntil ?? at) + ((decimal)valve.Valve.Pulse!.Value.Value.BclCompatibleTicks / NodaConstants.TicksPerSecond);
        return new PulseGiven((double?)idle ?? double.PositiveInfinity, left, before.Volts, valve.AtMove(before.Volts), _held.Volts)
        {
            IsFromFull = before == _full,
            IsTooWeak = !valve.IsMovedFrom(before),
        };
    }

    /// <summary>
    /// When it is full again, in whole milliseconds rounded up, where no other pulse comes; null where the recharge is not known.
    /// </summary>
    public long? FullAt
    {
        get
        {
            if (_perSecond is not { } perSecond || _busyUntil is not { } until) return null;
            if (perSecond.Over.IsZero) return long.MaxValue;
            var wait = new SquareVolts(_full.Steps - _held.Steps).Exact / perSecond;
            var ticks = (wait.Over * NodaConstants.TicksPerSecond) + ((BigInteger)(until * NodaConstants.TicksPerSecond) * wait.Under);
            var whole = BigInteger.DivRem(ticks, wait.Under * NodaConstants.TicksPerMillisecond, out var rest);
            return (long)BigInteger.Min(rest.Sign > 0 ? whole + 1 : whole, long.MaxValue);
        }
    }

    /// <summary>Seconds of recharge after which any number of pulses to a valve can follow one another.</summary>
    public double? RestFor(PulseValve valve) => Watts is { } watts
        ? Electricity.RechargeSeconds(Farads, Electricity.AfterPulse(valve.Needs, Farads, valve.LoopOhms, valve.Pulse), valve.Needs, watts)
        : null;

    private SquareVolts Recharged(decimal seconds)
    {
        if (_perSecond is { } perSecond) return _held.Charged(SquareVolts.Of(perSecond * Ratio.Of(seconds)), _full);
        return seconds >= UnknownRecharge ? _full : _held;
    }
}

/// <summary>A pulse and what it does to the capacitor.</summary>
/// <param name="Idle">Seconds since the pulse before was over.</param>
/// <param name="Left">Volts that the pulse before left.</param>
/// <param name="Before">Volts at its beginning.</param>
/// <param name="AtMove">Volts at the coil when the plunger moves: what the wire takes is not among them.</param>
/// <param name="After">Volts at its end.</param>
internal readonly record struct PulseGiven(double Idle, double Left, double Before, double AtMove, double After)
{
    /// <summary>Whether the capacitor was full before it.</summary>
    public required bool IsFromFull { get; init; }

    /// <summary>Whether the coil gets less than the valve works from.</summary>
    public required bool IsTooWeak { get; init; }
}
