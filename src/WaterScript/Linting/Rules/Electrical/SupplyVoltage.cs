using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Simulation.Electrical;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>Valves that do not get the voltage that they work from, whatever their wire: their power does not give it.</summary>
internal static class SupplyVoltage
{
    /// <summary>Whether the power of a controller gives less than a valve works from; one on a capacitor is judged by that.</summary>
    public static bool IsTooLow(Controller controller, Valve? valve) =>
        valve is { MinimumVoltage: { } least } && controller.Power is { } power && !(valve is LatchingValve && power.Capacitor is not null)
        && Electricity.VoltsOf(power) is { } volts && volts.InBase < least.InBase;

    /// <summary>A finding for each kind of valve on each controller, once.</summary>
    public static IEnumerable<Finding> Findings(Rule rule, Site site) => WiredOutput.AllOf(site)
        .Where(wired => IsTooLow(wired.Controller, wired.Valve))
        .DistinctBy(wired => (wired.Controller, wired.Valve))
        .Select(wired => FindingFor(rule, wired.Controller, wired.Valve!));

    private static Finding FindingFor(Rule rule, Controller controller, Valve valve)
    {
        var (least, volts) = (valve.MinimumVoltage!.Value, Electricity.VoltsOf(controller.Power)!.Value);
        return Finding.At(rule, volts.Place, $"valve {valve.Name} needs {least}, the power of {controller.Name} gives {volts}", $"gives {volts}") with
        {
            Others = [new Label(least.Place, $"needs {least}")],
            Details = $"{least} − {volts} = {new Quantity(least.InBase - volts.InBase, Units.Of(Dimension.Voltage).First())} too little, before any wire.",
            Help = "Use a valve that needs less, or a higher voltage: no wire is enough.",
        };
    }
}
