using NodaTime;
using WaterScript.Simulation;
using WaterScript.Timetables;
using Xunit;
using static WaterScript.Tests.Timetables.Sites;

namespace WaterScript.Tests.Simulation;

/// <summary>What is due and does not come, second by second; by hand. Zones a, b and c water from 06:00 on, 10 min each, and nothing after 06:25.</summary>
public class HeldRunTests
{
    private const string Schedules = """
        schedule s { every day; start at 06:00; cut off at 06:25; steps { water a, b, c for 10 min } }
        schedule whole { every day; start at 05:00; steps { water a for 10 min } }
        hold a from 2026-06-02 06:05 to 2026-06-02 07:00 because "mowing"
        """;

    private static readonly Timetable Days = Timetable.Of(Read(Garden(Schedules)), Horizon.DaysFrom(new(2026, 6, 1), 2));

    private static readonly string[] All = ["c 1 06:25-06:30 Cut", "a 2 06:05-06:10 Hold", "c 2 06:25-06:30 Cut"];

    [Fact]
    public void All_of_it_comes_pass_after_pass() => Assert.Equal(All, HeldRun.Of(Days).Select(Shown));

    [Fact]
    public void Without_a_cause_there_is_none() => Assert.Empty(HeldRun.Of(Timetable.Of(
        Read(Garden("schedule s { every day; start at 06:00; steps { water a for 10 min } }")), Days.Horizon)));

    [Theory]
    [InlineData("06:10", "06:25", "")]
    [InlineData("06:09", "06:25", "a")]
    [InlineData("06:10", "06:26", "c")]
    [InlineData("06:30", "24:00", "")]
    [InlineData("06:29", "24:00", "c")]
    [InlineData("00:00", "06:00", "")]
    [InlineData("00:00", "06:06", "a")]
    public void Of_a_stretch_it_is_what_reaches_into_it(string from, string until, string zones) =>
        Assert.Equal(zones, string.Concat(HeldRun.Of(Days, OnTheSecond(from), OnTheSecond(until)).Select(run => Days.Site.Zones[run.Planned.Zone].Name)));

    [Theory]
    [InlineData(2, 2, 1)]
    [InlineData(3, 3, 0)]
    [InlineData(0, 0, 3)]
    public void Of_more_than_are_kept_the_rest_is_counted(int most, int kept, int more)
    {
        var (runs, rest) = HeldRun.First(Days, most, _ => true);
        Assert.Equal(All[..kept], runs.Select(Shown));
        Assert.Equal(more, rest);
    }

    private static string Shown(HeldRun run) =>
        $"{Days.Site.Zones[run.Planned.Zone].Name} {Clock(run.Start).Day} {Clock(run.Start):HH:mm}-{Clock(run.End):HH:mm} {run.Cause.By}";

    private static LocalDateTime Clock(long instant) => Instant.FromUnixTimeSeconds(instant).InZone(Days.Site.TimeZone).LocalDateTime;

    private static long OnTheSecond(string time) => new LocalDateTime(2026, 6, 2, 0, 0).InZoneStrictly(Days.Site.TimeZone).ToInstant().ToUnixTimeSeconds()
        + (int.Parse(time[..2], null) * 3600) + (int.Parse(time[3..], null) * 60);
}
