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

    /// <summary>What cannot be judged, and why.</summary>
    public static IEnumerable<string> NotKnown(Site site)
    {
        var latching = WiredOutput.AllOf(site).Where(wired => wired.IsLatching).DistinctBy(wired => (wired.Controller, wired.Valve));
        foreach (var wired in latching.Where(wired => PulseValve.On(wired.Controller, wired.Valve) is null))
        {
            var lacks = wired.Controller.Power?.Capacitor is null ? $"no capacitor of {wired.Controller.Name} given" : "no coil, pulse or minimum-voltage " +
                "given";
            yield return $"pulses of {wired.Valve!.Name} ({lacks})";
        }
    }
}
