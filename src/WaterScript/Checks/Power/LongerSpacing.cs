using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Model;

namespace WaterScript.Checks;

/// <summary>A spacing that the recharge of a store fits into.</summary>
internal static class LongerSpacing
{
    /// <summary>The least, in milliseconds, rounded up to a tenth of a second; null where the recharge is not known.</summary>
    public static long? For(Store store, PulseValve pulse) => store.RestFor(pulse) is { } rest ? (long)Math.Ceiling((rest + pulse.Pulse) * 10) * 100 : null;

    /// <summary>The edit; null where the controller has no line with a spacing.</summary>
    public static Fix? To(Controller controller, long milliseconds)
    {
        if (controller.Lines.Of(Schema.Controller.SpacingTime.Name) is not { } line) return null;
        var text = $"spacing {Wording.Number(milliseconds, 0)} ms";
        return Fix.Unsafe($"write {text}", line, text);
    }
}
