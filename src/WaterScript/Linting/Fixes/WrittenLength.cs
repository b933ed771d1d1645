using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Linting.Fixes;

/// <summary>What has to stand in the file so that scale and trim leave a time: people follow an advice literally.</summary>
internal static class WrittenLength
{
    private const decimal Whole = 10_000;

    /// <summary>The least whole seconds that come to a time or more.</summary>
    /// <param name="seconds">The time, 1 or more.</param>
    /// <param name="scalePercent">The share of the scale, above 0.</param>
    /// <param name="zone">The zone, for its trim.</param>
    /// <param name="step">The step that waters it: neither touches an exact one.</param>
    public static long AtLeast(long seconds, decimal scalePercent, Zone zone, Step step) => AtMost(seconds - 1, scalePercent, zone, step) + 1;

    /// <summary>The most whole seconds that come to no more than a time.</summary>
    /// <param name="seconds">The time, 0 or more.</param>
    /// <param name="scalePercent">The share of the scale, above 0.</param>
    /// <param name="zone">The zone, for its trim.</param>
    /// <param name="step">The step that waters it: neither touches an exact one.</param>
    public static long AtMost(long seconds, decimal scalePercent, Zone zone, Step step)
    {
        if (step is WaterStep { IsExact: true }) return seconds;
        var written = (long)Math.Floor(seconds * Whole / (scalePercent * zone.TrimPercent));
        while (ScaledTime.Of(written + 1, scalePercent, zone) <= seconds) written++;
        return written;
    }

    /// <summary>Why it is another time: <c>, of which scale and trim make 2 min</c>; empty where neither changes it.</summary>
    public static string Why(string result, decimal scalePercent, Zone zone, Step step) => (scalePercent, zone.TrimPercent) switch
    {
        _ when step is WaterStep { IsExact: true } => "",
        (ScaleTable.AsWritten, ScaleTable.AsWritten) => "",
        (_, ScaleTable.AsWritten) => $", of which the scale makes {result}",
        (ScaleTable.AsWritten, _) => $", of which the trim makes {result}",
        _ => $", of which scale and trim make {result}",
    };
}
