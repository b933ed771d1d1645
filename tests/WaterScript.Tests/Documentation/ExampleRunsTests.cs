using NodaTime;
using NodaTime.Text;
using WaterScript.Model;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>What the examples water on some of their days. The expected runs were worked out by hand from the files.</summary>
public class ExampleRunsTests
{
    private static readonly LocalTimePattern Clock = LocalTimePattern.CreateWithInvariantCulture("HH:mm:ss");

    [Theory]
    [InlineData("balcony", "herbs", "2026-05-15", "07:30:00 herbs 480")]
    [InlineData(
        "terraces", "seedlings", "2026-04-06",
        "08:15:00 salad 45, 09:45:00 salad 45, 11:15:00 salad 45, 12:45:00 salad 45, 14:15:00 salad 45, 15:45:00 salad 45, 17:15:00 salad 45, "
            + "18:45:00 salad 45")]
    [InlineData("roof-pots", "citrus-spring", "2026-05-13", "07:00:00 citrus 720")]
    [InlineData("roof-pots", "citrus-spring", "2026-05-16", "")]
    [InlineData("roof-pots", "citrus-spring", "2026-05-19", "07:00:00 citrus 720")]
    [InlineData("roof-pots", "shade", "2026-05-03", "06:20:00 ferns 540")]
    [InlineData(
        "nursery", "weaning", "2026-10-01",
        "09:02:00 weaning 25, 09:42:00 weaning 25, 10:22:00 weaning 25, 11:02:00 weaning 25, 11:42:00 weaning 25, 12:22:00 weaning 25, 13:02:00 weaning 25, "
            + "13:42:00 weaning 25, 14:22:00 weaning 25, 15:02:00 weaning 25")]
    [InlineData("nursery", "standing", "2026-10-01", "04:40:00 standing 900, 05:15:00 standing 900")]
    [InlineData("nursery", "standing", "2026-10-02", "")]
    [InlineData("school-field", "field", "2026-10-01", "05:21:36 field-east 1080, 05:39:36 field-mid 1080, 05:57:36 field-west 1080, 06:15:36 play-grass 864")]
    [InlineData("school-field", "beds", "2026-10-01", "06:35:00 school-beds 1200")]
    [InlineData("school-field", "field", "2026-10-03", "07:21:36 field-east 1080, 07:39:36 field-mid 1080, 07:57:36 field-west 1080, 08:15:36 play-grass 864")]
    [InlineData("school-field", "beds", "2026-10-03", "08:35:00 school-beds 1200")]
    [InlineData("school-field", "field", "2026-10-31", "")]
    [InlineData("school-field", "beds", "2026-10-31", "")]
    [InlineData("school-field", "holiday-beds", "2027-01-02", "05:45:00 school-beds 900")]
    [InlineData(
        "sports-ground", "pitch", "2026-04-16",
        "21:30:00 pitch-1 1320, 21:52:00 pitch-2 1320, 22:14:00 pitch-3 1320, 22:36:00 pitch-4 1320, 22:58:00 pitch-5 1320, 23:20:00 pitch-6 1320, "
            + "23:42:00 pitch-7 1320, 00:04:00 pitch-8 1320, 00:26:00 pitch-1 1320, 00:48:00 pitch-2 1320, 01:10:00 pitch-3 1320, 01:32:00 pitch-4 1320, "
            + "01:54:00 pitch-5 1320, 02:16:00 pitch-6 1320, 02:38:00 pitch-7 1320, 03:00:00 pitch-8 1320")]
    [InlineData("sports-ground", "warm-up", "2026-04-16", "03:32:00 warm-up-a 1800, 04:02:00 warm-up-b 1800")]
    [InlineData("sports-ground", "pitch", "2026-06-09", "")]
    [InlineData("sports-ground", "warm-up", "2026-06-09", "")]
    [InlineData("sports-ground", "infield", "2026-05-25", "08:20:00 infield 240, 16:30:00 infield 240")]
    [InlineData("sports-ground", "infield", "2026-07-04", "")]
    [InlineData("sports-ground", "trees", "2026-05-06", "22:00:00 trees 10800")]
    [InlineData("sports-ground", "trees", "2026-05-13", "")]
    [InlineData("park/park", "lawns-night", "2026-05-01",
        "22:30:00 meadow-1 2100, 23:05:00 meadow-2 2100, 23:40:00 meadow-3 2100, 00:15:00 meadow-4 2100, 00:50:00 meadow-5 2100, 01:26:00 children-grass 2100")]
    [InlineData(
        "park/park", "roses", "2026-04-16",
        "23:00:00 roses-1 2400, 23:00:00 roses-2 2400, 23:00:00 roses-3 2400, 23:40:00 roses-4 2400, 23:40:00 roses-5 2400, 23:40:00 roses-6 2400, "
            + "00:20:00 hedge-east 3000, 00:20:00 hedge-west 3000")]
    [InlineData("park/park", "trees", "2026-05-05", "04:00:00 young-trees 5400")]
    [InlineData("park/park", "trees", "2026-05-20", "04:00:00 young-trees 5400")]
    public void A_schedule_waters_on_a_day_what_the_file_says(string example, string schedule, string day, string expected)
    {
        var site = Example.Read($"examples/{example}.water").Site!;

        Assert.Equal(expected, string.Join(", ", RunsOn(site, schedule, day).Select(run => Describe(site, run))));
    }

    [Fact]
    public void The_bench_rig_changes_over_every_seven_seconds()
    {
        var site = Example.Read("examples/bench-rig.water").Site!;
        var runs = RunsOn(site, "short-test", "2026-01-05").ToList();

        Assert.Equal(30, runs.Count);
        Assert.Equal("08:55:00 left 7", Describe(site, runs[0]));
        Assert.Equal("08:58:23 right 7", Describe(site, runs[^1]));
        Assert.All(runs.Zip(runs.Skip(1)), pair => Assert.Equal((pair.First.End, 1 - pair.First.Zone), (pair.Second.Start, pair.Second.Zone)));
    }

    /// <summary>
    /// In April 60 % of the written times, of which the herbs get 80 %: 12 min · 0.6 · 0.8 = 345.6 s. That is two pieces of at most
    /// 4 min, with 6 min between those of one zone. Where no pause stands and nothing soaks, the cistern's gap of 5 s does.
    /// The lawn's 9 mm take 45 min at 60 · 16 / 80 = 12 mm/h.
    /// </summary>
    [Fact]
    public void The_evening_round_of_the_terraces_is_scaled_trimmed_and_gapped()
    {
        var site = Example.Read("examples/terraces.water").Site!;
        var runs = RunsOn(site, "evening", "2026-04-01").ToList();

        Assert.Equal(
            [("lemons", 0, 2160), ("vines", 0, 2160), ("salad", 2280, 216), ("herbs", 2501, 173), ("salad", 2856, 216), ("herbs", 3077, 173),
                ("lawn", 3255, 1620)],
            runs.Select(run => (site.Zones[run.Zone].Name, run.Start - runs[0].Start, run.Seconds)));
    }

    private static IEnumerable<Run> RunsOn(Site site, string schedule, string day)
    {
        var date = LocalDatePattern.Iso.Parse(day).Value;
        var number = Period.DaysBetween(new LocalDate(1970, 1, 1), date);
        return Timetable.Of(site, new Horizon(date.PlusDays(-1), date.PlusDays(2))).Runs()
            .Where(run => run.Day == number && site.Schedules[run.Schedule].Name == schedule);
    }

    private static string Describe(Site site, Run run) =>
        $"{Clock.Format(Instant.FromUnixTimeSeconds(run.Start).InZone(site.TimeZone).TimeOfDay)} {site.Zones[run.Zone].Name} {run.Seconds}";
}
