using WaterScript.Language;
using WaterScript.Model;

namespace WaterScript.Tests.Linting.BruteForce;

/// <summary>A capacitor that pulses drain and that recharges between them, in joules: half its capacitance times the square of its voltage.</summary>
internal sealed class ReferenceStore(Model.Power power)
{
    /// <summary>Where nothing is said of a recharge, it is full so long after a pulse.</summary>
    private const double SecondsUntilFull = 1;

    private readonly double _farad = (double)power.Capacitor!.Value.InBase / 1e6;
    private readonly double _full = Math.Pow((double)power.CapacitorVoltage!.Value.InBase, 2) * (double)power.Capacitor!.Value.InBase / 2e6;
    private readonly double? _watt = (double?)(power.Recharge?.InBase * (power.RechargeEfficiencyPercent ?? 100m) / 100);

    /// <summary>When pulses come too soon, in milliseconds, that a full capacitor would give.</summary>
    /// <param name="switchings">What the controller does, in its order; a pulse that is due while another lasts begins at its end.</param>
    public IEnumerable<long> TooSoon(IEnumerable<(long At, Valve? Valve)> switchings) =>
        from pulse in Pulses(switchings) where pulse.IsTooSoon select pulse.At;

    /// <summary>From each pulse until the capacitor is full again, in milliseconds.</summary>
    public IEnumerable<(long At, long Until)> Recharges(IEnumerable<(long At, Valve? Valve)> switchings) =>
        from pulse in Pulses(switchings) select (pulse.At, (long)Math.Ceiling(1000 * (pulse.Free + ((_full - pulse.Joules) / _watt!.Value))));

    /// <summary>Each pulse: when it is due, whether it is too weak, when it is over and what it leaves.</summary>
    private IEnumerable<(long At, bool IsTooSoon, double Free, double Joules)> Pulses(IEnumerable<(long At, Valve? Valve)> switchings)
    {
        var (joules, free) = (_full, double.MinValue);
        foreach (var (at, valve) in switchings)
        {
            if (valve is not LatchingValve { Pulse: { } pulse, Coil: { } coil } latching) continue;
            var begins = Math.Max(at / 1000.0, free);
            if (begins - free >= SecondsUntilFull || _watt is not null) joules = _watt is { } watt ? Math.Min(_full, joules + (watt * (begins - free))) : _full;
            var moves = (latching.ResponseTime ?? pulse).Value.TotalSeconds;
            var isTooSoon = Volt(Left(joules, moves, coil.InBase)) < (double?)latching.MinimumVoltage?.InBase
                && (double)latching.MinimumVoltage!.Value.InBase <= Volt(Left(_full, moves, coil.InBase));
            joules = Left(joules, pulse.Value.TotalSeconds, coil.InBase);
            free = begins + pulse.Value.TotalSeconds;
            yield return (at, isTooSoon, free, joules);
        }
    }

    /// <summary>Energy goes with the square of the voltage.</summary>
    private double Left(double joules, double seconds, decimal ohm) => joules * Math.Exp(-2 * seconds / ((double)ohm * _farad));

    private double Volt(double joules) => Math.Sqrt(2 * joules / _farad);
}
