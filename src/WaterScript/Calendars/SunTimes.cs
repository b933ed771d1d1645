using WaterScript.Model;

namespace WaterScript.Calendars;

/// <summary>
/// Sunrise and sunset at a place, by local date. The sun rises or sets when its centre passes the altitude −0.833°, which
/// stands for refraction and its half diameter (US Naval Observatory; NOAA). The height of the place is not counted, and
/// neither are hills.
/// </summary>
/// <remarks>
/// The altitude is worked out at the event itself, not at noon: within a minute of printed tables up to the polar circles. Times are
/// rounded to the nearest whole minute of UTC, half up. A date has the sunrise before and the sunset after its noon, so that an evening whose sun sets
/// after midnight is still that of its date: none is lost and none counts twice. It may be used from several threads.
/// </remarks>
internal sealed class SunTimes
{
    /// <summary>Degrees; standard altitude of the sun's centre when its upper limb is seen on the horizon (US Naval Observatory; NOAA).</summary>
    public const double StandardAltitude = -0.833;

    private const double RadiansInDegree = Math.PI / 180;
    private const int SecondsInMinute = 60;
    private const double HalfDay = 43_200;

    /// <summary>The sky turns by one degree in 240 s.</summary>
    private const double SecondsInDegree = 240;

    /// <summary>How near the event is searched, in seconds.</summary>
    private const double Nearness = 0.25;

    /// <summary>A bound on the search, which takes about six rounds.</summary>
    private const int MostRounds = 60;

    /// <summary>How many days are remembered, a power of two: those of two years, which are gone through more than once.</summary>
    private const int Remembered = 1024;

    private static readonly double SineOfStandardAltitude = Math.Sin(RadiansInDegree * StandardAltitude);

    private readonly ZoneClock _clock;
    private readonly double _longitude;
    private readonly double _sineOfLatitude;
    private readonly double _cosineOfLatitude;
    private readonly SunDay?[] _days = new SunDay?[Remembered];

    private SunTimes(Position position, ZoneClock clock)
    {
        _clock = clock;
        _longitude = position.Longitude;
        (_sineOfLatitude, _cosineOfLatitude) = Math.SinCos(RadiansInDegree * position.Latitude);
    }

    /// <summary>The sun at a place, by the dates of a wall clock.</summary>
    public static SunTimes Of(Position position, ZoneClock clock) => new(position, clock);

    /// <summary>The instant of an event of a local date, in Unix seconds, or null when there is none; a sunset may come after midnight.</summary>
    /// <param name="day">The date, in days since 1970-01-01.</param>
    /// <param name="sunEvent">Which.</param>
    public long? EventOn(int day, SunEvent sunEvent)
    {
        ref var slot = ref _days[day & (Remembered - 1)];
        var sunDay = slot;
        if (sunDay is null || sunDay.Day != day)
            slot = sunDay = Compute(day);
        return sunEvent == SunEvent.Sunrise ? sunDay.Sunrise : sunDay.Sunset;
    }

    /// <summary>
    /// The half days before and after the noon of a date. In each the sun climbs or sinks all the time, so it passes the horizon once or not at all.
    /// </summary>
    private SunDay Compute(int day)
    {
        var noon = NoonOf(day);
        var (before, highest, after) = (Culmination(noon - 1), Culmination(noon), Culmination(noon + 1));
        return new(day, Rise(before, highest) ?? Rise(highest, after), Rise(after, highest) ?? Rise(highest, before));
    }

    /// <summary>When the sun passes the horizon between a sighting under it and one above it, in whichever order; null where they are not.</summary>
    private long? Rise(Sighting under, Sighting above) => !under.IsUp && above.IsUp ? ToWholeMinute(Crossing(under, above)) : null;

    /// <summary>
    /// The mean noon that is nearest to 12:00 of a date: each date has one, and the sunset after it is that of the date, even where it comes after midnight.
    /// Half days count from the mean midnight of 1970-01-01 at the place: even ones begin at midnight, odd ones at noon.
    /// </summary>
    private long NoonOf(int day)
    {
        var clockNoon = _clock.Read(day, ZoneClock.SecondsInDay / 2).Instant;
        return (2 * (long)Math.Floor((clockNoon + (_longitude * SecondsInDegree)) / (2 * HalfDay))) + 1;
    }

    /// <summary>When the sun stands highest or lowest, to some seconds, which is near enough to part the half days.</summary>
    private Sighting Culmination(long halfDay)
    {
        var mean = (halfDay * HalfDay) - (_longitude * SecondsInDegree);
        var isNoon = (halfDay & 1) == 1;
        var hourAngle = SunAt(mean).HourAngle;
        var late = isNoon ? hourAngle : Math.IEEERemainder(hourAngle - 180, 360);
        return Sight(mean - (late * SecondsInDegree));
    }

    /// <summary>Where the altitude passes the standard one: false position with the Illinois rule, which never leaves the bracket.</summary>
    private double Crossing(Sighting low, Sighting high)
    {
        var next = low;
        for (var round = 0; round < MostRounds && Math.Abs(high.Instant - low.Instant) > Nearness; round++)
        {
            var instant = low.Instant - (low.Altitude * (high.Instant - low.Instant) / (high.Altitude - low.Altitude));
            var step = Math.Abs(instant - next.Instant);
            next = Sight(instant);
            if (step < Nearness)
                break;
            if (next.IsUp != high.IsUp)
                low = high;
            else
                low = low with { Altitude = low.Altitude / 2 };
            high = next;
        }
        return next.Instant;
    }

    private Sighting Sight(double instant) => new(instant, SunAt(instant).SineOfAltitude - SineOfStandardAltitude);

    private SunPosition SunAt(double instant) => SunPosition.At(instant, _longitude, _sineOfLatitude, _cosineOfLatitude);

    private static long ToWholeMinute(double instant) => (long)Math.Floor((instant / SecondsInMinute) + 0.5) * SecondsInMinute;

    /// <summary>The sun at an instant.</summary>
    /// <param name="Instant">In Unix seconds.</param>
    /// <param name="Altitude">Sine of its altitude, less that of the standard one; halved by the search.</param>
    private readonly record struct Sighting(double Instant, double Altitude)
    {
        public bool IsUp => Altitude >= 0;
    }

    /// <summary>The events of a local date; an object, so that threads see all of it or nothing.</summary>
    private sealed record SunDay(int Day, long? Sunrise, long? Sunset);
}
