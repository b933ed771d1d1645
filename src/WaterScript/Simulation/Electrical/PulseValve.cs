using NodaTime;
using WaterScript.Language;
using WaterScript.Model;

namespace WaterScript.Simulation.Electrical;

/// <summary>A latching valve on a controller with a capacitor: what a pulse does to the capacitor, and what the valve needs of it.</summary>
internal sealed class PulseValve
{
    private PulseValve(LatchingValve valve, Power power, Wire? wire)
    {
        (Valve, Wire) = (valve, wire);
        Farads = (double)power.Capacitor!.Value.InBase / 1e6;
        Full = (double)power.CapacitorVoltage!.Value.InBase;
        Ohms = (double)valve.Coil!.Value.InBase;
        WireOhms = wire is { } laid ? (double)Electricity.LoopOhms(laid) : 0;
        Pulse = valve.Pulse!.Value.Value.TotalSeconds;
        PulseSeconds = (decimal)valve.Pulse.Value.Value.BclCompatibleTicks / NodaConstants.TicksPerSecond;
        ResponseTime = (valve.ResponseTime ?? valve.Pulse.Value).Value.TotalSeconds;
        MinimumVoltage = (double)(valve.MinimumVoltage?.InBase ?? 0);
        _full = SquareVolts.Of(power.CapacitorVoltage.Value.InBase);
        _needs = SquareVolts.Of(valve.MinimumVoltage?.InBase ?? 0);
        var coil = Ratio.Of(valve.Coil.Value.InBase);
        var loop = coil + Ratio.Of(wire is { } given ? Electricity.LoopOhms(given) : 0);
        var constant = loop * Ratio.Of(power.Capacitor.Value.InBase) / Ratio.Of(MicrofaradsInFarad);
        KeptBehindPulse = KeptAfter(valve.Pulse.Value.Value, constant);
        _keptAtCoil = KeptAfter((valve.ResponseTime ?? valve.Pulse.Value).Value, constant).Times(SquareVolts.Of(coil / loop * (coil / loop)));
    }

    private const decimal MicrofaradsInFarad = 1_000_000;

    private readonly SquareVolts _full;
    private readonly SquareVolts _needs;
    private readonly SquareVolts _keptAtCoil;

    /// <summary>The valve.</summary>
    public LatchingValve Valve { get; }

    /// <summary>Capacitance of the capacitor, in farads.</summary>
    public double Farads { get; }

    /// <summary>Voltage of the full capacitor.</summary>
    public double Full { get; }

    /// <summary>Resistance of the coil, in ohms.</summary>
    public double Ohms { get; }

    /// <summary>The wire to the coil; null where none is given, or none is looked at.</summary>
    public Wire? Wire { get; }

    /// <summary>Resistance of that wire in summer, out and back, in ohms; 0 without one.</summary>
    public double WireOhms { get; }

    /// <summary>Resistance that the capacitor discharges through, in ohms.</summary>
    public double LoopOhms => Ohms + WireOhms;

    /// <summary>Length of the pulse, in seconds.</summary>
    public double Pulse { get; }

    /// <summary>The same, exact.</summary>
    public decimal PulseSeconds { get; }

    /// <summary>When in the pulse the plunger moves, in seconds; at its end where that is not given.</summary>
    public double ResponseTime { get; }

    /// <summary>Voltage that the plunger needs to move; 0 where it is not given.</summary>
    public double MinimumVoltage { get; }

    /// <summary>Voltage that the capacitor needs before the pulse.</summary>
    public double Needs => Electricity.BeforePulse(MinimumVoltage * LoopOhms / Ohms, Farads, LoopOhms, ResponseTime);

    /// <summary>Share of the square of the capacitor's voltage that a pulse leaves: exp(−2 · t / (R · C)).</summary>
    public SquareVolts KeptBehindPulse { get; }

    /// <summary>Whether not even the full capacitor moves it.</summary>
    public bool IsTooWeakFromFull => !IsMovedFrom(_full);

    /// <summary>Whether the plunger moves, from a capacitor that has so much before the pulse.</summary>
    public bool IsMovedFrom(SquareVolts before) => before.Times(_keptAtCoil).Steps >= _needs.Steps;

    /// <summary>
    /// Voltage at the coil when the plunger moves, of a capacitor that has so much before the pulse: U = U0 · exp(−t / (R · C)) · Rcoil / R.
    /// </summary>
    public double AtMove(double before) => Electricity.AfterPulse(before, Farads, LoopOhms, ResponseTime) * Ohms / LoopOhms;

    /// <summary>What is taken for granted about it.</summary>
    public string Assumed =>
        Valve.ResponseTime is null
        ? "the plunger moves at the end of the pulse; nothing recharges during it."
        : "While a pulse lasts, nothing recharges the capacitor.";

    /// <summary>The valve on that controller, or null where it is not latching or a number is missing.</summary>
    /// <param name="controller">The controller.</param>
    /// <param name="valve">The valve.</param>
    /// <param name="wire">The wire to it, or null for none.</param>
    public static PulseValve? On(Controller controller, Valve? valve, Wire? wire = null) =>
        Drawing(controller, valve, wire) is { Valve.MinimumVoltage: not null } pulse ? pulse : null;

    /// <summary>The statement that a latching valve on that controller lacks first; null where it lacks none.</summary>
    public static string? LacksFor(Controller controller, Valve? valve) =>
        controller.Power is not { Capacitor: not null, CapacitorVoltage: not null } ? "capacitor"
        : valve is not LatchingValve { Coil: not null } ? "coil"
        : valve is not LatchingValve { Pulse: not null } ? "pulse"
        : valve.MinimumVoltage is null ? "minimum-voltage"
        : null;

    /// <summary>The same, also where nothing is known of what it works from: its pulses drain the capacitor, but are never found too weak.</summary>
    public static PulseValve? Drawing(Controller controller, Valve? valve, Wire? wire = null) =>
        valve is LatchingValve { Coil: not null, Pulse: not null } latching && controller.Power is { Capacitor: not null, CapacitorVoltage: not null } power
            ? new PulseValve(latching, power, wire)
            : null;

    /// <summary>That of a zone, or null.</summary>
    public static PulseValve? Of(Zone zone) => zone.Controller is { } controller ? Drawing(controller, zone.Valve, zone.Wire?.Value) : null;

    private static SquareVolts KeptAfter(Duration time, Ratio constant) =>
        SquareVolts.Left(Ratio.Of(2 * (decimal)time.BclCompatibleTicks / NodaConstants.TicksPerSecond) / constant);
}
