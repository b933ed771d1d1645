using WaterScript.Language;
using WaterScript.Model;

namespace WaterScript.Simulation.Electrical;

/// <summary>A latching valve on a controller with a store: what a pulse does to the store, and what the valve needs of it.</summary>
internal sealed class PulseValve
{
    private PulseValve(LatchingValve valve, Power power)
    {
        Valve = valve;
        Farads = (double)power.Store!.Value.InBase / 1e6;
        Full = (double)power.StoreVoltage!.Value.InBase;
        Ohms = (double)valve.Coil!.Value.InBase;
        Pulse = valve.Pulse!.Value.Value.TotalSeconds;
        MovesIn = (valve.MovesIn ?? valve.Pulse.Value).Value.TotalSeconds;
        WorksFrom = (double)(valve.WorksFrom?.InBase ?? 0);
    }

    /// <summary>What two equal voltages may differ by.</summary>
    public const double Tolerance = 1e-9;

    /// <summary>The valve.</summary>
    public LatchingValve Valve { get; }

    /// <summary>Capacitance of the store, in farads.</summary>
    public double Farads { get; }

    /// <summary>Voltage of the full store.</summary>
    public double Full { get; }

    /// <summary>Resistance of the coil, in ohms.</summary>
    public double Ohms { get; }

    /// <summary>Length of the pulse, in seconds.</summary>
    public double Pulse { get; }

    /// <summary>When in the pulse the plunger moves, in seconds; at its end where that is not given.</summary>
    public double MovesIn { get; }

    /// <summary>Voltage that the plunger needs to move; 0 where it is not given.</summary>
    public double WorksFrom { get; }

    /// <summary>Voltage that the store needs before the pulse.</summary>
    public double Needs => Electricity.BeforePulse(WorksFrom, Farads, Ohms, MovesIn);

    /// <summary>Whether not even the full store moves it.</summary>
    public bool IsTooWeakFromFull => Electricity.AfterPulse(Full, Farads, Ohms, MovesIn) < WorksFrom - Tolerance;

    /// <summary>What is taken for granted about it.</summary>
    public string Assumed =>
        Valve.MovesIn is null
        ? "The plunger moves at the end of the pulse; while a pulse lasts, nothing recharges the store."
        : "While a pulse lasts, nothing recharges the store.";

    /// <summary>The valve on that controller, or null where it is not latching or a number is missing.</summary>
    public static PulseValve? On(Controller controller, Valve? valve) =>
        Drawing(controller, valve) is { Valve.WorksFrom: not null } pulse ? pulse : null;

    /// <summary>The same, also where nothing is known of what it works from: its pulses drain the store, but are never found too weak.</summary>
    public static PulseValve? Drawing(Controller controller, Valve? valve) =>
        valve is LatchingValve { Coil: not null, Pulse: not null } latching && controller.Power is { Store: not null, StoreVoltage: not null } power
            ? new PulseValve(latching, power)
            : null;

    /// <summary>Voltage at the coil when the plunger moves, from a full store through a wire of that resistance.</summary>
    public double VoltsThrough(double wire) => Electricity.AfterPulse(Full, Farads, Ohms + wire, MovesIn) * Ohms / (Ohms + wire);
}
