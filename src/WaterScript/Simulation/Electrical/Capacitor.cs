using System.Numerics;
using NodaTime;
using WaterScript.Language;
using WaterScript.Model;

namespace WaterScript.Simulation.Electrical;

/// <summary>The capacitor of a controller, from pulse to pulse.</summary>
internal sealed class Capacitor
{
    /// <summary>So many pulses are remembered; where no two are alike, remembering more is of no use.</summary>
    private const int MostRemembered = 4_096;

    private readonly Ratio? _perSecond;
    private readonly SquareVolts _full;

    /// <summary>After this many seconds it is full, whatever it held; null where that is never so.</summary>
    private readonly decimal? _enough;
    private readonly Dictionary<SquareVolts, Charge> _charges = [];
    private Charge _charge;
    private decimal? _busyUntil;
    private int _remembered;

    private Capacitor(Power power)
    {
        Farads = (double)power.Capacitor!.Value.InBase / 1e6;
        Full = (double)power.CapacitorVoltage!.Value.InBase;
        _full = SquareVolts.Of(power.CapacitorVoltage.Value.InBase);
        _charge = ChargeOf(_full);
        _enough = UnknownRecharge;
        if (power.Recharge is not { } recharge) return;
        var watts = recharge.InBase * (power.RechargeEfficiencyPercent ?? 100m) / 100;
        (Watts, _perSecond) = ((double)watts, Ratio.Of(2) * Ratio.Of(watts) * Ratio.Of(MicrofaradsInFarad) / Ratio.Of(power.Capacitor.Value.InBase));
        _enough = EnoughAt(_perSecond.Value);
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
        _busyUntil = Math.Max(at, _busyUntil ?? at) + valve.PulseSeconds;
        var counted = idle > _enough ? _enough : idle;
        var outcome = _charge.Find(counted, valve) ?? Remember(counted, valve);
        _charge = outcome.After;
        return outcome.Given with { Idle = (double?)idle ?? double.PositiveInfinity };
    }

    private PulseOutcome Remember(decimal? idle, PulseValve valve)
    {
        if (_remembered++ >= MostRemembered) Forget();
        var before = idle is { } seconds ? Recharged(seconds) : _full;
        var after = ChargeOf(before.Times(valve.KeptBehindPulse));
        var given = new PulseGiven(Idle: 0, _charge.Volts, before.Volts, valve.AtMove(before.Volts), after.Volts)
        {
            IsFromFull = before == _full,
            IsTooWeak = !valve.IsMovedFrom(before),
        };
        return _charge.Keep(idle, valve, new PulseOutcome(given, after));
    }

    private Charge ChargeOf(SquareVolts held)
    {
        if (!_charges.TryGetValue(held, out var charge)) _charges[held] = charge = new Charge(held);
        return charge;
    }

    private void Forget()
    {
        _charges.Clear();
        _remembered = 1;
        _charge = ChargeOf(_charge.Held);
    }

    /// <summary>Whole seconds after which even the empty capacitor is full; null where it never is, or not within any time that is asked for.</summary>
    private decimal? EnoughAt(Ratio perSecond)
    {
        if (perSecond.Over.IsZero) return null;
        var seconds = _full.Exact / perSecond;
        // One more for what is cut off of each of the two, and one since it is rounded down.
        var whole = (seconds.Over / seconds.Under) + 2;
        return whole < int.MaxValue ? (decimal)whole : null;
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
            var ticks = _charge.WaitTicks(WaitOf) + (BigInteger)(until * NodaConstants.TicksPerSecond);
            var whole = BigInteger.DivRem(ticks, NodaConstants.TicksPerMillisecond, out var rest);
            return (long)BigInteger.Min(rest.Sign > 0 ? whole + 1 : whole, long.MaxValue);
        }
    }

    /// <summary>Ticks from a charge to the full one, rounded up: what is rounded up to milliseconds later is the same with it.</summary>
    private BigInteger WaitOf(SquareVolts held)
    {
        var wait = new SquareVolts(_full.Steps - held.Steps).Exact / _perSecond!.Value;
        var whole = BigInteger.DivRem(wait.Over * NodaConstants.TicksPerSecond, wait.Under, out var rest);
        return rest.Sign > 0 ? whole + 1 : whole;
    }

    /// <summary>Seconds of recharge after which any number of pulses to a valve can follow one another.</summary>
    public double? RestFor(PulseValve valve) => Watts is { } watts
        ? Electricity.RechargeSeconds(Farads, Electricity.AfterPulse(valve.Needs, Farads, valve.LoopOhms, valve.Pulse), valve.Needs, watts)
        : null;

    private SquareVolts Recharged(decimal seconds)
    {
        if (_perSecond is { } perSecond) return _charge.Held.Charged(SquareVolts.Of(perSecond * Ratio.Of(seconds)), _full);
        return seconds >= UnknownRecharge ? _full : _charge.Held;
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
