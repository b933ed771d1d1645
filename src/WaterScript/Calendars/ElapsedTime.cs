using NodaTime;
using WaterScript.Language;

namespace WaterScript.Calendars;

/// <summary>Elapsed time as schedules count it.</summary>
internal static class ElapsedTime
{
    /// <summary>The whole seconds of a length of time; the binder has refused lengths with a part of one where schedules take them.</summary>
    public static long WholeSeconds(this Duration duration) => (long)duration.TotalSeconds;

    /// <inheritdoc cref="WholeSeconds(Duration)"/>
    public static long WholeSeconds(this Placed<Duration> placed) => placed.Value.WholeSeconds();
}
