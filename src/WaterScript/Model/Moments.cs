using NodaTime;
using WaterScript.Text;

namespace WaterScript.Model;

/// <summary>A moment of a date.</summary>
/// <param name="Origin">Where it is written.</param>
internal abstract record Moment(Location Origin);

/// <summary>A time of the wall clock.</summary>
/// <param name="Origin">Where it is written.</param>
/// <param name="SecondOfDay">Seconds after midnight on the clock, 0 to 86,400; 86,400 is the end of the day, written <c>24:00</c>.</param>
internal sealed record ClockMoment(Location Origin, int SecondOfDay) : Moment(Origin);

/// <summary>A sun event, and perhaps some time before or after it.</summary>
/// <param name="Origin">Where it is written.</param>
/// <param name="Event">Which.</param>
/// <param name="Offset">Elapsed time after it; negative before it. Whole seconds.</param>
internal sealed record SunMoment(Location Origin, SunEvent Event, Duration Offset) : Moment(Origin);

/// <summary>What the sun does.</summary>
internal enum SunEvent
{
    /// <summary>Its upper limb appears.</summary>
    Sunrise,

    /// <summary>Its upper limb disappears.</summary>
    Sunset,
}
