using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;
using Xunit;

namespace WaterScript.Tests.Calendars;

public class SunTimesTests
{
    private const int Minute = 60;

    /// <summary>American Meteorological Society, table of sunrises at 38.89° N 77.08° W, Eastern Standard Time.</summary>
    [Theory]
    [InlineData(2008, 12, 22, 7, 24)]
    [InlineData(2009, 3, 21, 6, 10)]
    [InlineData(2009, 6, 21, 4, 43)]
    [InlineData(2009, 9, 21, 5, 55)]
    public void SunrisesAreThosePrintedByTheAmericanMeteorologicalSociety(int year, int month, int day, int hour, int minute)
    {
        var sun = Sun(38.89, -77.08, DateTimeZone.ForOffset(Offset.FromHours(-5)));
        AssertWithinAMinute(Instant.FromUtc(year, month, day, hour + 5, minute), sun.EventOn(CivilDate.DayNumberOf(year, month, day), SunEvent.Sunrise));
    }

    /// <summary>US Naval Observatory, tables for 2020, by UTC date.</summary>
    [Theory]
    [InlineData(61.2167, -149.8667, 3, "16:14", "04:01")]
    [InlineData(61.2167, -149.8667, 6, "12:21", "07:40")]
    [InlineData(61.2167, -149.8667, 12, "19:10", "00:40")]
    [InlineData(1.2833, 103.8333, 6, "23:00", "11:11")]
    [InlineData(1.2833, 103.8333, 12, "22:59", "11:01")]
    public void EventsAreThosePrintedByTheUSNavalObservatory(double latitude, double longitude, int month, string rise, string set)
    {
        var sun = Sun(latitude, longitude, DateTimeZone.Utc);
        var date = new LocalDate(2020, month, 15);
        var day = CivilDate.DayNumberOf(date);
        AssertWithinAMinute(At(date, rise), sun.EventOn(day, SunEvent.Sunrise));
        AssertWithinAMinute(At(date, set), sun.EventOn(day, SunEvent.Sunset));
    }

    private static SunTimes Sun(double latitude, double longitude, DateTimeZone zone) =>
        SunTimes.Of(new Position(latitude, longitude, null), new ZoneClock(zone));

    private static Instant At(LocalDate date, string time) =>
        date.At(NodaTime.Text.LocalTimePattern.CreateWithInvariantCulture("HH:mm").Parse(time).Value).InUtc().ToInstant();

    private static void AssertWithinAMinute(Instant expected, long? actual)
    {
        Assert.NotNull(actual);
        Assert.InRange(actual.Value - expected.ToUnixTimeSeconds(), -Minute, Minute);
        Assert.Equal(0, actual.Value % Minute);
    }
}
