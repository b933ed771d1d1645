using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation.Electrical;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>What is wired to a controller and draws a current that is not given.</summary>
internal static class CurrentGaps
{
    /// <summary>Zones, then devices.</summary>
    /// <param name="draw">What outputs draw.</param>
    /// <param name="controller">The controller.</param>
    /// <param name="isInrush">Whether the current for the moment of opening is asked for.</param>
    public static IEnumerable<Gap> Of(CurrentDraw draw, Controller controller, bool isInrush)
    {
        string Lacks(Valve? valve) => valve is null ? "valve" : isInrush ? "inrush" : "holding";
        var (zones, devices) = draw.Unknown(controller, isInrush);
        return Gap.Each(
            Concern.Power,
            isInrush ? "inrush" : "holding current",
            [.. zones.Select(zone => (Thing.Of(zone), (string?)Lacks(zone.Valve))), .. devices.Select(device => (Thing.Of(device), Lacks(device.Valve)))]);
    }
}
