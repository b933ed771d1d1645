using WaterScript.Model;

namespace WaterScript.Simulation.Electrical;

/// <summary>The latching valves of a site on the capacitors that they get their pulses from.</summary>
internal static class PulseValves
{
    /// <summary>Each kind of valve on each controller, once.</summary>
    public static IEnumerable<(Controller Controller, PulseValve Valve)> Of(Site site) => WiredOutput.AllOf(site)
        .Where(wired => wired.IsLatching)
        .DistinctBy(wired => (wired.Controller, wired.Valve))
        .Select(wired => (wired.Controller, Valve: PulseValve.On(wired.Controller, wired.Valve)))
        .Where(entry => entry.Valve is not null)
        .Select(entry => (entry.Controller, entry.Valve!));

    /// <summary>The kinds of valve that cannot be judged, each with the statement that lacks first.</summary>
    public static IEnumerable<(Valve Valve, string Lacks)> NotKnown(Site site) => WiredOutput.AllOf(site)
        .Where(wired => wired.IsLatching)
        .DistinctBy(wired => (wired.Controller, wired.Valve))
        .Select(wired => (wired.Valve, Lacks: PulseValve.LacksFor(wired.Controller, wired.Valve)))
        .Where(entry => entry.Lacks is not null)
        .Select(entry => (entry.Valve!, entry.Lacks!));
}
