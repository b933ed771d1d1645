using System.Text;
using NodaTime;
using NodaTime.Text;
using WaterScript.Calendars;
using WaterScript.Documents.Writers;
using Xunit;

namespace WaterScript.Tests.Documents.Writers;

public class TimestampsTests
{
    /// <summary>NodaTime's own formatter is the judge, over changes of clocks, half-hour offsets and dates before 1970.</summary>
    [Theory]
    [InlineData("Europe/Lisbon")]
    [InlineData("Australia/Lord_Howe")]
    [InlineData("Asia/Kathmandu")]
    [InlineData("America/St_Johns")]
    [InlineData("Africa/Casablanca")]
    [InlineData("Etc/UTC")]
    public void An_instant_is_written_as_another_formatter_writes_it(string id)
    {
        var zone = DateTimeZoneProviders.Tzdb[id];
        var timestamps = new Timestamps(new ZoneClock(zone));
        var pattern = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd'T'HH':'mm':'sso<+HH:mm>");
        var buffer = new byte[Timestamps.Longest];
        for (var instant = -3_000_000_000L; instant < 4_200_000_000L; instant += 1_234_567)
        {
            var expected = Instant.FromUnixTimeSeconds(instant).InZone(zone).ToOffsetDateTime();
            if (expected.Offset.Seconds % 60 != 0) continue;
            Assert.Equal(pattern.Format(expected), Encoding.ASCII.GetString(timestamps.Instant(instant, buffer)));
        }
    }

    /// <summary>Lisbon's clocks showed the local mean time before 1912: 36 minutes 45 seconds behind UTC (IANA time-zone database).</summary>
    [Fact]
    public void An_offset_of_odd_seconds_is_written_whole()
    {
        var timestamps = new Timestamps(new ZoneClock(DateTimeZoneProviders.Tzdb["Europe/Lisbon"]));
        Assert.Equal("1899-12-31T23:23:15-00:36:45", Encoding.ASCII.GetString(timestamps.Instant(-2_208_988_800, new byte[Timestamps.Longest])));
    }
}
