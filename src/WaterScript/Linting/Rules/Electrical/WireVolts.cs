using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Simulation.Electrical;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>The voltage at the end of the wire of an output, as it opens and with no other on.</summary>
internal sealed class WireVolts
{
    private readonly WiredOutput _wired;

    private WireVolts(WiredOutput wired) => _wired = wired;

    /// <summary>The wire as written.</summary>
    public Wire Wire => _wired.Wire!.Value.Value;

    /// <summary>Of an output of which all that it takes is known, and of which the power supply gives enough without a wire; else null.</summary>
    public static WireVolts? Of(WiredOutput wired) => LacksFor(wired) is null && !SupplyVoltage.IsTooLow(wired) ? new WireVolts(wired) : null;

    /// <summary>The statement that is missing first to judge an output, or null.</summary>
    public static string? LacksFor(WiredOutput wired)
    {
        if (wired.Wire is null) return "wire";
        if (wired is { Valve: null, Zone: not null }) return "valve";
        if (wired.MinimumVoltage is null) return "minimum-voltage";
        if (wired.IsLatching) return PulseValve.LacksFor(wired.Controller, wired.Valve);
        if (Electricity.VoltsOf(wired.Controller.Power) is null) return "power";
        return wired.OpeningCurrent is null ? "inrush" : null;
    }

    /// <summary>Voltage that arrives through a wire in place of its own.</summary>
    public decimal At(Wire wire) => PulseThrough(wire) is { } pulse
        ? (decimal)pulse.AtMove(pulse.Full)
        : Supplied - Electricity.VoltageDrop(Amperes, wire);

    /// <summary>Whether that is what is needed.</summary>
    public bool Reaches(Wire wire) => PulseThrough(wire) is { } pulse ? !pulse.IsTooWeakFromFull : At(wire) >= _wired.MinimumVoltage!.Value.InBase;

    /// <summary>Voltage that the wire takes of what would arrive without it.</summary>
    public decimal Lost => (PulseThrough(null) is { } pulse ? (decimal)pulse.AtMove(pulse.Full) : Supplied) - At(Wire);

    /// <summary>Whether not even a full capacitor moves a latching valve beside it.</summary>
    public bool IsTooWeakFromFull => PulseThrough(null) is { IsTooWeakFromFull: true };

    /// <summary>How that comes about, in words.</summary>
    public string Sum => PulseThrough(null) is { } pulse
        ? $"{Laid(Wire)} add {Phrases.Number(Electricity.LoopOhms(Wire), 2)} ohm, out and back, to the " +
            $"{Phrases.Number((decimal)pulse.Ohms, 1)} ohm of the coil."
        : $"{Laid(Wire)} lose {VoltageDrop.Volts(Electricity.VoltageDrop(Amperes, Wire))} V of {VoltageDrop.Volts(Supplied)} V at " +
            $"{Phrases.Number(Amperes, 2)} A, out and back.";

    private decimal Supplied => Electricity.VoltsOf(_wired.Controller.Power)!.Value.Value.InBase;

    private decimal Amperes => _wired.OpeningCurrent!.Value.InBase;

    /// <summary><c>250 m of 1.5 mm2 at 40 °C</c></summary>
    public static string Laid(in Wire wire) => $"{wire.Length} of {wire.Kind} at {Phrases.Number(Electricity.SummerTemperature, 0)} °C";

    private PulseValve? PulseThrough(Wire? wire) => _wired.IsLatching ? PulseValve.On(_wired.Controller, _wired.Valve, wire) : null;
}
