using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;
using Xunit;

namespace WaterScript.Tests.Calendars;

/// <summary>Where the search for the sun could go wrong: far clocks, the 180th meridian, noons at which the sun is barely seen.</summary>
public sealed class SunEdgeTests
{
    private const int Minute = 60, Day = 86_400;

    /// <summary>
    /// A date has the mean noon that is nearest to its 12:00. At 150° W that of a date by Berlin's clock lies 11 h later, and is the one that the clock of the
    /// place has on the same date.
    /// </summary>
    [Theory]
    [InlineData("Europe/Berlin", "Pacific/Honolulu", -150)]
    [InlineData("Pacific/Honolulu", "Europe/Berlin", 15)]
    public void A_clock_far_from_the_sun_has_the_noon_nearest_to_its_12(string far, string own, double longitude)
    {
        var (first, second) = (Sun(40, longitude, far), Sun(40, longitude, own));
        Assert.All(Enumerable.Range(CivilDate.DayNumberOf(2026, 1, 1), 60), day =>
            Assert.Equal(second.EventOn(day, SunEvent.Sunrise), first.EventOn(day, SunEvent.Sunrise)));
    }

    /// <summary>0.2° of longitude are 48 s of the sun's way, also where the 180th meridian lies between; events are rounded to whole minutes.</summary>
    [Fact]
    public void The_180th_meridian_is_no_border()
    {
        var (west, east) = (Sun(-17, 179.9, "Pacific/Fiji"), Sun(-17, -179.9, "Pacific/Fiji"));
        Assert.All(Enumerable.Range(CivilDate.DayNumberOf(2026, 1, 1), 365), day =>
            Assert.InRange(west.EventOn(day, SunEvent.Sunrise)!.Value - east.EventOn(day, SunEvent.Sunrise)!.Value, 0, 2 * Minute));
    }

    /// <summary>
    /// Around the end of polar night the sun is up for minutes. Minute by minute with the altitude alone, which the tables of an astronomical library pin
    /// elsewhere: it is up at some minute around noon, or the date has no sunrise.
    /// </summary>
    [Fact]
    public void The_first_minutes_of_sun_after_polar_night_are_found()
    {
        for (var latitude = 68.0; latitude < 71; latitude += 0.1)
        {
            var sun = Sun(latitude, 0, "Etc/UTC");
            for (var day = CivilDate.DayNumberOf(2026, 1, 1); day < CivilDate.DayNumberOf(2026, 1, 28); day++)
            {
                var noon = (day * (long)Day) + (Day / 2);
                var highest = Enumerable.Range(-30, 61).Max(minute => Altitude(latitude, noon + (minute * Minute)));
                // Between two minutes the sun may stand higher, by less than a thousandth of a degree.
                if (highest > SunTimes.StandardAltitude + 0.001) Assert.NotNull(sun.EventOn(day, SunEvent.Sunrise));
                if (highest < SunTimes.StandardAltitude - 0.001) Assert.Null(sun.EventOn(day, SunEvent.Sunrise));
            }
        }
    }

    private static double Altitude(double latitude, long instant)
    {
        var (sine, cosine) = Math.SinCos(latitude * Math.PI / 180);
        return Math.Asin(SunPosition.At(instant, 0, sine, cosine).SineOfAltitude) * 180 / Math.PI;
    }

    private static SunTimes Sun(double latitude, double longitude, string clock) =>
        SunTimes.Of(new Position(latitude, longitude, null), new ZoneClock(DateTimeZoneProviders.Tzdb[clock]));
}
