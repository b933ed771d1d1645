using System.Globalization;
using NodaTime;
using NodaTime.Text;
using WaterScript.Calendars;
using WaterScript.Model;
using Xunit;

namespace WaterScript.Tests.Calendars;

public class SunTimesTests
{
    private const int Minute = 60;

    private static readonly LocalTimePattern Time = LocalTimePattern.CreateWithInvariantCulture("HH:mm:ss");

    /// <summary>American Meteorological Society, table of sunrises at 38.89° N 77.08° W, Eastern Standard Time (noted, not read again).</summary>
    [Theory]
    [InlineData(2008, 12, 22, 7, 24)]
    [InlineData(2009, 3, 21, 6, 10)]
    [InlineData(2009, 6, 21, 4, 43)]
    [InlineData(2009, 9, 21, 5, 55)]
    public void SunrisesAreThoseOfTheAmericanMeteorologicalSociety(int year, int month, int day, int hour, int minute)
    {
        var sun = Sun(38.89, -77.08, DateTimeZone.ForOffset(Offset.FromHours(-5)));
        AssertWithinAMinute(Instant.FromUtc(year, month, day, hour + 5, minute), sun.EventOn(CivilDate.DayNumberOf(year, month, day), SunEvent.Sunrise));
    }

    /// <summary>US Naval Observatory, tables for 2020, by UTC date (noted, not read again).</summary>
    [Theory]
    [InlineData(61.2167, -149.8667, 3, "16:14", "04:01")]
    [InlineData(61.2167, -149.8667, 6, "12:21", "07:40")]
    [InlineData(61.2167, -149.8667, 12, "19:10", "00:40")]
    [InlineData(1.2833, 103.8333, 6, "23:00", "11:11")]
    [InlineData(1.2833, 103.8333, 12, "22:59", "11:01")]
    public void EventsAreThoseOfTheUSNavalObservatory(double latitude, double longitude, int month, string rise, string set)
    {
        var sun = Sun(latitude, longitude, DateTimeZone.Utc);
        var date = new LocalDate(2020, month, 15);
        AssertWithinAMinute(At(date, rise), During(date, SunEvent.Sunrise, sun));
        AssertWithinAMinute(At(date, set), During(date, SunEvent.Sunset, sun));
    }

    /// <summary>The event that falls on a date of UTC, to whichever date it belongs: tables list events by when they are.</summary>
    private static long? During(LocalDate date, SunEvent what, SunTimes sun)
    {
        var (day, from) = (CivilDate.DayNumberOf(date), date.AtMidnight().InUtc().ToInstant().ToUnixTimeSeconds());
        return new[] { day - 1, day, day + 1 }.Select(each => sun.EventOn(each, what))
            .SingleOrDefault(instant => instant >= from && instant < from + (24 * 60 * Minute));
    }

    /// <summary>
    /// Computed by astronomy-engine 2.1.19 (npm, MIT licence), SearchAltitude at −0.833°, to the second: latitude, longitude, UTC date,
    /// sunrise, sunset. python3-ephem 4.1.4 gives the same within 6 s.
    /// </summary>
    private const string AstronomyEngine = """
          -0.2  -78.5 1995-02-03 11:24:06 23:31:34
          -0.2  -78.5 2026-03-20 11:18:07 23:24:37
          -0.2  -78.5 2026-06-21 11:12:32 23:19:11
          -0.2  -78.5 2026-10-25 10:54:30 23:01:36
          -0.2  -78.5 2026-12-21 11:08:04 23:16:15
          -0.2  -78.5 2044-08-09 11:16:14 23:22:36
          19.4  -99.1 1995-02-03 13:10:34 00:29:35
          19.4  -99.1 2026-03-20 12:40:21 00:47:10
          19.4  -99.1 2026-06-21 11:59:11 01:17:08
          19.4  -99.1 2026-10-25 12:34:20 00:06:55
          19.4  -99.1 2026-12-21 13:05:43 00:02:58
          19.4  -99.1 2044-08-09 12:15:39 01:08:20
         -20.2   57.5 1995-02-03 01:54:42 14:52:38
         -20.2   57.5 2026-03-20 02:13:42 14:20:57
         -20.2   57.5 2026-06-21 02:44:32 13:39:01
         -20.2   57.5 2026-10-25 01:32:28 14:15:59
         -20.2   57.5 2026-12-21 01:27:13 14:48:44
         -20.2   57.5 2044-08-09 02:35:32 13:55:38
          35.7  139.7 1995-02-03 21:39:43 08:09:49
          35.7  139.7 2026-03-20 20:44:09 08:52:29
          35.7  139.7 2026-06-21 19:25:46 10:00:18
          35.7  139.7 2026-10-25 20:57:08 07:53:57
          35.7  139.7 2026-12-21 21:47:23 07:31:15
          35.7  139.7 2044-08-09 19:56:22 09:37:18
         -35.3  149.1 1995-02-03 19:24:44 09:10:31
         -35.3  149.1 2026-03-20 20:07:07 08:15:27
         -35.3  149.1 2026-06-21 21:12:21 06:58:30
         -35.3  149.1 2026-10-25 19:07:53 08:26:58
         -35.3  149.1 2026-12-21 18:45:37 09:17:47
         -35.3  149.1 2044-08-09 20:49:53 07:27:42
          39.6   -8.1 1995-02-03 07:38:46 17:54:08
          39.6   -8.1 2026-03-20 06:36:02 18:44:17
          39.6   -8.1 2026-06-21 05:05:01 20:03:24
          39.6   -8.1 2026-10-25 06:52:58 17:39:25
          39.6   -8.1 2026-12-21 07:49:25 17:11:31
          39.6   -8.1 2044-08-09 05:39:41 19:35:23
          48.2   16.4 1995-02-03 06:20:48 15:56:12
          48.2   16.4 2026-03-20 04:57:39 17:06:55
          48.2   16.4 2026-06-21 02:53:51 18:58:33
          48.2   16.4 2026-10-25 05:28:47 15:47:28
          48.2   16.4 2026-12-21 06:42:11 15:02:40
          48.2   16.4 2044-08-09 03:41:16 18:17:32
         -51.7  -72.5 1995-02-03 09:29:00 00:39:13
         -51.7  -72.5 2026-03-20 10:51:45 23:01:58
         -51.7  -72.5 2026-06-21 12:58:04 20:45:38
         -51.7  -72.5 2026-10-25 09:25:01 23:44:13
         -51.7  -72.5 2026-12-21 08:27:45 01:08:03
         -51.7  -72.5 2044-08-09 12:12:10 21:39:20
          60.2   24.9 1995-02-03 06:31:55 14:37:22
          60.2   24.9 2026-03-20 04:22:26 16:34:40
          60.2   24.9 2026-06-21 00:53:50 19:50:33
          60.2   24.9 2026-10-25 05:25:08 14:42:47
          60.2   24.9 2026-12-21 07:24:17 13:12:33
          60.2   24.9 2044-08-09 02:20:23 18:29:36
          64.1  -21.9 1995-02-03 10:02:58 17:20:51
          64.1  -21.9 2026-03-20 07:28:28 19:43:13
          64.1  -21.9 2026-06-21 02:56:13 00:02:24
          64.1  -21.9 2026-10-25 08:48:23 17:33:45
          64.1  -21.9 2026-12-21 11:21:23 15:29:58
          64.1  -21.9 2044-08-09 05:02:16 22:01:30
          69.7   18.9 1995-02-03 08:17:11 13:40:26
          69.7   18.9 2026-03-20 04:44:08 17:01:45
          69.7   18.9 2026-06-21        -        -
          69.7   18.9 2026-10-25 06:38:39 14:16:50
          69.7   18.9 2026-12-21        -        -
          69.7   18.9 2044-08-09 01:16:06 20:19:07
         -77.8  166.7 1995-02-03        -        -
         -77.8  166.7 2026-03-20 18:46:02 07:18:42
         -77.8  166.7 2026-06-21        -        -
         -77.8  166.7 2026-10-25        -        -
         -77.8  166.7 2026-12-21        -        -
         -77.8  166.7 2044-08-09        -        -
        """;

    public static TheoryData<string> Rows => [.. AstronomyEngine.Split('\n')];

    [Theory]
    [MemberData(nameof(Rows))]
    public void EventsAreThoseOfAnAstronomicalLibrary(string row)
    {
        var cells = row.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var sun = Sun(Number(cells[0]), Number(cells[1]), DateTimeZone.Utc);
        var date = LocalDatePattern.Iso.Parse(cells[2]).Value;
        AssertIs(date, cells[3], During(date, SunEvent.Sunrise, sun));
        AssertIs(date, cells[4], During(date, SunEvent.Sunset, sun));

        // Half a minute of rounding, and some seconds for a formula that is good to 0.01°.
        static void AssertIs(LocalDate date, string time, long? actual)
        {
            if (time == "-")
                Assert.Null(actual);
            else
                Assert.InRange(actual!.Value - (date.AtMidnight() + Period.FromSeconds(Seconds(time))).InUtc().ToInstant().ToUnixTimeSeconds(), -40, 40);
        }
    }

    /// <summary>
    /// At 64.1° N the sun sets after midnight from the middle of June to the end: each date has its own evening all the same, about 24 h after the one
    /// before. From one day to the next sunset moves by 5 min at the most there (worked out from the rows above: 3 h 13 min in 49 days are 4 min a day).
    /// </summary>
    [Theory]
    [InlineData("Etc/UTC")]
    [InlineData("Atlantic/Reykjavik")]
    public void NoEveningIsLostAroundMidnight(string timeZone)
    {
        var sun = Sun(64.1, -21.9, DateTimeZoneProviders.Tzdb[timeZone]);
        var first = CivilDate.DayNumberOf(2026, 1, 1);
        var sunsets = Enumerable.Range(first, 365).Select(day => sun.EventOn(day, SunEvent.Sunset)!.Value).ToList();
        Assert.All(sunsets.Zip(sunsets.Skip(1)), pair => Assert.InRange(pair.Second - pair.First, 86_400 - (5 * Minute), 86_400 + (5 * Minute)));

        // The library has 00:02:24 on 21 June, which ends the evening of the 20th.
        Assert.Equal(At(new LocalDate(2026, 6, 21), "00:02").ToUnixTimeSeconds(), sun.EventOn(CivilDate.DayNumberOf(2026, 6, 20), SunEvent.Sunset));
    }

    /// <summary>On both days on which sunset crosses midnight a schedule by the sun waters in the evening, and once.</summary>
    [Theory]
    [InlineData("2026-06-14")]
    [InlineData("2026-06-28")]
    public void AScheduleBySunsetWatersEveryEvening(string from) =>
        Assert.Equal(5, Timetables.Sites.PassLines(Garden("schedule s { every day; start at sunset - 30 min; steps { water a for 5 min } }"), from, 5).Length);

    private static string Garden(string schedule) => Timetables.Sites.Garden(schedule, "Atlantic/Reykjavik", location: "64.1 N 21.9 W");

    [Fact]
    public void EventsOfADateLieAroundItsNoon()
    {
        foreach (var (latitude, longitude, id) in new[]
        {
            (61.2, -149.9, "America/Anchorage"), (69.7, 18.9, "Europe/Oslo"), (-45.0, 170.5, "Pacific/Auckland"),
            (1.3, 173.0, "Pacific/Tarawa"), (43.8, 87.6, "Asia/Shanghai"), (-23.5, -46.6, "America/Sao_Paulo"),
        })
        {
            var clock = new ZoneClock(DateTimeZoneProviders.Tzdb[id]);
            var sun = SunTimes.Of(new Position(latitude, longitude, null), clock);
            var first = CivilDate.DayNumberOf(2017, 1, 1);
            foreach (var day in Enumerable.Range(first, 3 * 365))
            {
                var rise = sun.EventOn(day, SunEvent.Sunrise);
                var set = sun.EventOn(day, SunEvent.Sunset);
                Assert.False(rise >= set);
                Assert.False(rise < clock.StartOfDay(day) - (2 * 60 * Minute) || set > clock.StartOfDay(day + 1) + (2 * 60 * Minute));
                if (Math.Abs(latitude) >= 60) continue;
                Assert.Equal((day, day), (clock.At(rise!.Value).Day, clock.At(set!.Value).Day));
            }
        }
    }

    [Theory]
    [InlineData(69.7)]
    [InlineData(78.2)]
    [InlineData(-77.8)]
    public void BeyondThePolarCirclesThereAreDaysWithoutSunriseInSummerAndInWinter(double latitude)
    {
        var sun = Sun(latitude, 18.9, DateTimeZone.Utc);
        Assert.Null(sun.EventOn(CivilDate.DayNumberOf(2026, 6, 21), SunEvent.Sunrise));
        Assert.Null(sun.EventOn(CivilDate.DayNumberOf(2026, 12, 21), SunEvent.Sunset));
        Assert.NotNull(sun.EventOn(CivilDate.DayNumberOf(2026, 3, 20), SunEvent.Sunrise));
        Assert.NotNull(sun.EventOn(CivilDate.DayNumberOf(2026, 9, 25), SunEvent.Sunset));
    }

    /// <summary>At a pole the sun rises once a year, a few days before the equinox because of refraction and its half diameter.</summary>
    [Theory]
    [InlineData(90, 3, 9)]
    [InlineData(-90, 9, 3)]
    public void AtThePolesTheSunRisesAndSetsOnceAYear(double latitude, int monthOfRise, int monthOfSet)
    {
        var sun = Sun(latitude, 0, DateTimeZone.Utc);
        var days = Enumerable.Range(CivilDate.DayNumberOf(2026, 1, 1), 365).ToList();
        var rise = Assert.Single(days, day => sun.EventOn(day, SunEvent.Sunrise) is not null);
        var set = Assert.Single(days, day => sun.EventOn(day, SunEvent.Sunset) is not null);
        Assert.Equal(monthOfRise, CivilDate.FromDayNumber(rise).Month);
        Assert.Equal(monthOfSet, CivilDate.FromDayNumber(set).Month);
    }

    [Fact]
    public void AskingInAnotherOrderChangesNothing()
    {
        var days = Enumerable.Range(CivilDate.DayNumberOf(2026, 1, 1), 365).ToList();
        var forwards = Sun(51, 3, DateTimeZone.Utc);
        var backwards = Sun(51, 3, DateTimeZone.Utc);
        var expected = days.Select(day => forwards.EventOn(day, SunEvent.Sunrise)).ToList();
        Assert.Equal(expected, Enumerable.Reverse(Enumerable.Reverse(days).Select(day => backwards.EventOn(day, SunEvent.Sunrise)).ToList()));
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static long Seconds(string time) => Time.Parse(time).Value.TickOfDay / NodaConstants.TicksPerSecond;

    private static SunTimes Sun(double latitude, double longitude, DateTimeZone zone) =>
        SunTimes.Of(new Position(latitude, longitude, null), new ZoneClock(zone));

    private static Instant At(LocalDate date, string time) =>
        date.At(Time.Parse($"{time}:00").Value).InUtc().ToInstant();

    private static void AssertWithinAMinute(Instant expected, long? actual)
    {
        Assert.NotNull(actual);
        Assert.InRange(actual.Value - expected.ToUnixTimeSeconds(), -Minute, Minute);
        Assert.Equal(0, actual.Value % Minute);
    }
}
