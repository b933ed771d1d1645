using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Simulation.Electrical;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>Valves that do not get the voltage that they work from, whatever their wire: their power does not give it.</summary>
internal static class SupplyVoltage
{
    /// <summary>Whether the power of a controller gives less than an output works from; a valve on a capacitor is judged by that.</summary>
    public static bool IsTooLow(WiredOutput wired) =>
        wired is { MinimumVoltage: { } least, Controller.Power: { } power } && !(wired.IsLatching && power.Capacitor is not null)
        && Electricity.VoltsOf(power) is { } volts && volts.InBase < least.InBase;

    /// <summary>A finding for each kind of valve on each controller, once, and for each pump.</summary>
    public static IEnumerable<Finding> Findings(Rule rule, Site site) => WiredOutput.AllOf(site)
        .Where(IsTooLow)
        .DistinctBy(wired => (wired.Controller, wired.Valve, wired.Valve is null ? wired.Device : null))
        .Select(wired => FindingFor(rule, wired));

    private static Finding FindingFor(Rule rule, WiredOutput wired)
    {
        var (least, volts) = (wired.MinimumVoltage!.Value, Electricity.VoltsOf(wired.Controller.Power)!.Value);
        var what = wired.Valve is { } valve ? $"valve {valve.Name}" : wired.KindAndName;
        return Finding.At(rule, volts.Place, $"{what} needs {least}, the power of {wired.Controller.Name} gives {volts}", $"gives {volts}") with
        {
            Others = [new Label(least.Place, $"needs {least}")],
            Details = $"{least} − {volts} = {new Quantity(least.InBase - volts.InBase, Units.Of(Dimension.Voltage).First())} too little, before any wire.",
            Excess = least.InBase - volts.InBase,
            Help = "Use a valve that needs less, or a higher voltage: no wire is enough.",
        };
    }
}
