using WaterScript.Language;
using WaterScript.Model;

namespace WaterScript.Simulation.Electrical;

/// <summary>A latching valve on a controller with a capacitor: what a pulse does to the capacitor, and what the valve needs of it.</summary>
internal sealed class PulseValve
{
    private PulseValve(LatchingValve valve, Power power)
    {
        Valve = valve;
        Farads = (double)power.Capacitor!.Value.InBase / 1e6;
        Full = (double)power.CapacitorVoltage!.Value.InBase;
        Ohms = (double)valve.Coil!.Value.InBase;
        Pulse = valve.Pulse!.Value.Value.TotalSeconds;
        ResponseTime = (valve.ResponseTime ?? valve.Pulse.Value).Value.TotalSeconds;
        MinimumVoltage = (double)(valve.MinimumVoltage?.InBase ?? 0);
    }

    /// <summary>What two equal voltages may differ by.</summary>
    public const double Tolerance = 1e-9;

    /// <summary>The valve.</summary>
    public LatchingValve Valve { get; }

    /// <summary>Capacitance of the capacitor, in farads.</summary>
    public double Farads { get; }

    /// <summary>Voltage of the full capacitor.</summary>
    public double Full { get; }

    /// <summary>Resistance of the coil, in ohms.</summary>
    public double Ohms { get; }

    /// <summary>Length of the pulse, in seconds.</summary>
    public double Pulse { get; }

    /// <summary>When in the pulse the plunger moves, in seconds; at its end where that is not given.</summary>
    public double ResponseTime { get; }

    /// <summary>Voltage that the plunger needs to move; 0 where it is not given.</summary>
    public double MinimumVoltage { get; }

    /// <summary>Voltage that the capacitor needs before the pulse.</summary>
    public double Needs => Electricity.BeforePulse(MinimumVoltage, Farads, Ohms, ResponseTime);

    /// <summary>Whether not even the full capacitor moves it.</summary>
    public bool IsTooWeakFromFull => Electricity.AfterPulse(Full, Farads, Ohms, ResponseTime) < MinimumVoltage - Tolerance;

    /// <summary>What is taken for granted about it.</summary>
    public string Assumed =>
        Valve.ResponseTime is null
        ? "the plunger moves at the end of the pulse; nothing recharges during it."
        : "While a pulse lasts, nothing recharges the capacitor.";

    /// <summary>The valve on that controller, or null where it is not latching or a number is missing.</summary>
    public static PulseValve? On(Controller controller, Valve? valve) =>
        Drawing(controller, valve) is { Valve.MinimumVoltage: not null } pulse ? pulse : null;

    /// <summary>The statement that a latching valve on that controller lacks first; null where it lacks none.</summary>
    public static string? LacksFor(Controller controller, Valve? valve) =>
        controller.Power is not { Capacitor: not null, CapacitorVoltage: not null } ? "capacitor"
        : valve is not LatchingValve { Coil: not null } ? "coil"
        : valve is not LatchingValve { Pulse: not null } ? "pulse"
        : valve.MinimumVoltage is null ? "minimum-voltage"
        : null;

    /// <summary>The same, also where nothing is known of what it works from: its pulses drain the capacitor, but are never found too weak.</summary>
    public static PulseValve? Drawing(Controller controller, Valve? valve) =>
        valve is LatchingValve { Coil: not null, Pulse: not null } latching && controller.Power is { Capacitor: not null, CapacitorVoltage: not null } power
            ? new PulseValve(latching, power)
            : null;

    /// <summary>Voltage at the coil when the plunger moves, from a full capacitor through a wire of that resistance.</summary>
    public double VoltsThrough(double wire) => Electricity.AfterPulse(Full, Farads, Ohms + wire, ResponseTime) * Ohms / (Ohms + wire);
}
