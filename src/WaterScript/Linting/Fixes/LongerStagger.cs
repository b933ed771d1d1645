using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Simulation.Electrical;
using WaterScript.Wording;

namespace WaterScript.Linting.Fixes;

/// <summary>A longer stagger of a controller, or the first that it gets.</summary>
internal static class LongerStagger
{
    /// <summary>
    /// The least that the recharge of a capacitor fits into, in milliseconds, rounded up to a tenth of a second; null where the recharge is not known.
    /// </summary>
    public static long? For(Capacitor capacitor, PulseValve pulse) =>
        capacitor.RestFor(pulse) is { } rest ? (long)Math.Ceiling((rest + pulse.Pulse) * 10) * 100 : null;

    /// <summary>As it is written: <c>stagger 300 ms</c>.</summary>
    public static string Words(long milliseconds) => $"stagger {Phrases.Number(milliseconds, 0)} ms";

    /// <summary>The edit; null where neither a stagger nor a power supply of the controller is written.</summary>
    public static Fix? To(Controller controller, long milliseconds)
    {
        var words = Words(milliseconds);
        if (controller.WrittenStagger?.Place is { } line) return Fix.Unsafe($"write {words}", line, words);
        return controller.Power is { } power ? WrittenLine.Before(power.Origin, words) : null;
    }

    /// <summary>The site with it.</summary>
    public static Site In(Site site, Controller controller, long milliseconds) =>
        site with { Controllers = site.Controllers.SetItem(controller.Index, controller with { WrittenStagger = Of(site, controller, milliseconds) }) };

    /// <summary>It stands where the edit would put it, or where there is a place at all.</summary>
    private static Placed<Duration> Of(Site site, Controller controller, long milliseconds) =>
        new(Duration.FromMilliseconds(milliseconds), controller.WrittenStagger?.Place ?? controller.Origin ?? site.Origin);
}
