using NodaTime;
using WaterScript.Calendars;
using Xunit;

namespace WaterScript.Tests.Calendars;

public class ZoneClockTests
{
    public static TheoryData<string, int, int> ZonesAndYears => new()
    {
        { "America/New_York", 1880, 2060 },
        { "Europe/Lisbon", 1900, 2060 },
        { "Australia/Lord_Howe", 1970, 2060 }, // moves its clocks by 30 min
        { "Africa/Casablanca", 1910, 2090 }, // moves them for Ramadan
        { "America/Sao_Paulo", 1910, 2030 }, // until 2018 the change skipped midnight
        { "Asia/Kathmandu", 1915, 2030 }, // +5:41:16, +5:30, +5:45
        { "Europe/Dublin", 1910, 2030 },
        { "Pacific/Apia", 1890, 2030 }, // a date skipped whole, and one shown twice
        { "America/Asuncion", 1925, 2030 },
        { "Asia/Tehran", 1915, 2030 }, // midnight skipped
        { "Etc/UTC", 1970, 2030 },
    };

    /// <summary>
    /// Judged by NodaTime's own mapping of a local time, with the rule of RFC 5545, 3.3.5, written out: every quarter of an hour
    /// in the days about every change, and the start of every day.
    /// </summary>
    [Theory]
    [MemberData(nameof(ZonesAndYears))]
    public void TimesAboutEveryChangeAreThoseOfNodaTime(string id, int fromYear, int untilYear)
    {
        var zone = DateTimeZoneProviders.Tzdb[id];
        var clock = new ZoneClock(zone);
        var from = Instant.FromUtc(fromYear, 1, 1, 0, 0);
        foreach (var interval in zone.GetZoneIntervals(from, Instant.FromUtc(untilYear, 1, 1, 0, 0)).Where(interval => interval.HasStart))
        {
            var change = CivilDate.DayNumberOf(interval.Start.InUtc().Date);
            for (var day = change - 2; day <= change + 2; day++)
            {
                for (var second = 0; second <= ZoneClock.SecondsInDay; second += 900)
                    AssertSame(zone, clock, day, second);
                AssertSameStart(zone, clock, day);
            }
            AssertSameOffset(zone, clock, interval.Start - Duration.FromSeconds(1));
            AssertSameOffset(zone, clock, interval.Start);
        }
    }

    [Theory]
    [MemberData(nameof(ZonesAndYears))]
    public void TimesOfEveryDayAreThoseOfNodaTime(string id, int fromYear, int untilYear)
    {
        var zone = DateTimeZoneProviders.Tzdb[id];
        var clock = new ZoneClock(zone);
        var until = CivilDate.DayNumberOf(untilYear, 1, 1);
        for (var day = CivilDate.DayNumberOf(fromYear, 1, 1); day < until; day++)
        {
            AssertSame(zone, clock, day, 6 * 3600);
            AssertSame(zone, clock, day, 9000 + (day & 63));
            AssertSameStart(zone, clock, day);
        }
    }

    [Theory]
    [InlineData("America/New_York", "2026-03-08T02:30", "2026-03-08T07:30:00Z", MomentNote.Skipped)] // read as 02:30 EST, the clock shows 03:30
    [InlineData("America/New_York", "2026-11-01T01:30", "2026-11-01T05:30:00Z", MomentNote.Doubled)]
    [InlineData("Europe/Lisbon", "2026-03-29T01:30", "2026-03-29T01:30:00Z", MomentNote.Skipped)]
    [InlineData("Europe/Lisbon", "2026-10-25T01:30", "2026-10-25T00:30:00Z", MomentNote.Doubled)]
    [InlineData("Australia/Lord_Howe", "2026-10-04T02:15", "2026-10-03T15:45:00Z", MomentNote.Skipped)]
    [InlineData("Australia/Lord_Howe", "2026-04-05T01:45", "2026-04-04T14:45:00Z", MomentNote.Doubled)]
    [InlineData("America/Sao_Paulo", "2018-11-04T00:00", "2018-11-04T03:00:00Z", MomentNote.Skipped)]
    [InlineData("America/Sao_Paulo", "2018-02-17T23:30", "2018-02-18T01:30:00Z", MomentNote.Doubled)]
    [InlineData("Africa/Casablanca", "2026-02-15T02:30", "2026-02-15T01:30:00Z", MomentNote.Doubled)]
    [InlineData("Asia/Kathmandu", "2026-05-01T06:00", "2026-05-01T00:15:00Z", MomentNote.None)]
    public void ATimeInAChangeIsReadAsRFC5545Says(string id, string wall, string utc, object note)
    {
        var local = NodaTime.Text.LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm").Parse(wall).Value;
        var expected = NodaTime.Text.InstantPattern.General.Parse(utc).Value.ToUnixTimeSeconds();
        var reading = new ZoneClock(DateTimeZoneProviders.Tzdb[id]).Read(
            CivilDate.DayNumberOf(local.Date), (int)(local.TimeOfDay.TickOfDay / NodaConstants.TicksPerSecond));
        Assert.Equal(new MomentReading(expected, (MomentNote)note), reading);
    }

    [Fact]
    public void TheEndOfADayIsTheMidnightOfTheNext()
    {
        var clock = new ZoneClock(DateTimeZoneProviders.Tzdb["America/Sao_Paulo"]);
        var day = CivilDate.DayNumberOf(2018, 11, 3);
        Assert.Equal(clock.Read(day + 1, 0), clock.Read(day, ZoneClock.SecondsInDay));
        Assert.Equal(MomentNote.Skipped, clock.Read(day, ZoneClock.SecondsInDay).Note);
    }

    [Fact]
    public void ADateSkippedWholeStartsWhereTheNextDoes()
    {
        var clock = new ZoneClock(DateTimeZoneProviders.Tzdb["Pacific/Apia"]);
        var skipped = CivilDate.DayNumberOf(2011, 12, 30);
        Assert.Equal(clock.StartOfDay(skipped + 1), clock.StartOfDay(skipped));
        Assert.Equal(MomentNote.Skipped, clock.Read(skipped, 12 * 3600).Note);
    }

    private static void AssertSame(DateTimeZone zone, ZoneClock clock, int day, int second)
    {
        var local = CivilDate.FromDayNumber(day).ToLocalDate().AtMidnight().PlusSeconds(second);
        var mapping = zone.MapLocal(local);
        var (expected, note) = mapping.Count switch
        {
            0 => (local.WithOffset(mapping.EarlyInterval.WallOffset).ToInstant(), MomentNote.Skipped),
            1 => (mapping.Single().ToInstant(), MomentNote.None),
            _ => (mapping.First().ToInstant(), MomentNote.Doubled),
        };
        Assert.Equal(new MomentReading(expected.ToUnixTimeSeconds(), note), clock.Read(day, second));
    }

    private static void AssertSameStart(DateTimeZone zone, ZoneClock clock, int day)
    {
        var date = CivilDate.FromDayNumber(day).ToLocalDate();
        if (zone.MapLocal(date.AtMidnight()) is { Count: 0 } gap && gap.LateInterval.IsoLocalStart.Date != date)
            return; // a date skipped whole has no start
        Assert.Equal(zone.AtStartOfDay(date).ToInstant().ToUnixTimeSeconds(), clock.StartOfDay(day));
    }

    private static void AssertSameOffset(DateTimeZone zone, ZoneClock clock, Instant instant)
    {
        var expected = instant.InZone(zone);
        var actual = clock.At(instant.ToUnixTimeSeconds());
        Assert.Equal(CivilDate.DayNumberOf(expected.Date), actual.Day);
        Assert.Equal(expected.TickOfDay / NodaConstants.TicksPerSecond, actual.SecondOfDay);
        Assert.Equal(expected.Offset.Seconds, actual.Offset);
        Assert.Equal(expected.Offset.Seconds, clock.OffsetAt(instant.ToUnixTimeSeconds()));
    }
}
