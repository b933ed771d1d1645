using NodaTime;
using WaterScript.Timetables;
using Xunit;
using static WaterScript.Tests.Timetables.Sites;

namespace WaterScript.Tests.Timetables;

/// <summary>What holds of every timetable.</summary>
public class TimetablePropertyTests
{
    private static readonly string[] Schedules =
    [
        "schedule night { every 3 days; start at 23:30; steps { water a, b for 40 min } }",
        "schedule dawn { on mon to fri; finish by sunrise; repeat every 50 min for 3 passes; steps { pause 3 min; water c for 30 min } }",
        "schedule mist { every day; start at sunrise + 1 h; repeat every 17 min until sunset - 30 min; steps { water a for 20 s } }",
        "schedule long { on odd days; start at 22:00; repeat every 7 h for 5 passes; steps { water b for 2 h } }",
        "schedule after { start after long + 1 h; steps { water c, a + b for 15 min } }",
        "schedule same { every day; start at 23:30; steps { water b for 1 min } }",
    ];

    [Fact]
    public void RunsComeInOrder()
    {
        var runs = Runs(Schedules, new LocalDate(2026, 1, 1), 365);
        Assert.True(runs.Length > 10_000);
        Assert.Equal(Enumerable.Range(1, runs.Length).Select(number => (long)number), runs.Select(run => run.Number));
        Assert.All(runs.Zip(runs.Skip(1)), pair => Assert.True((pair.First.Start, pair.First.Zone).CompareTo((pair.Second.Start, pair.Second.Zone)) <= 0));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(88)]
    [InlineData(200)]
    [InlineData(298)]
    public void TwoPartsOfAHorizonJoinToTheWhole(int days)
    {
        var from = new LocalDate(2026, 1, 1);
        var whole = Runs(Schedules, from, 365);
        var parts = Runs(Schedules, from, days).Concat(Runs(Schedules, from.PlusDays(days), 365 - days)).ToArray();
        Assert.Equal(whole.Length, parts.Length);
        Assert.Equal(whole.Order(ByAll).Select(WithoutNumber), parts.Order(ByAll).Select(WithoutNumber));
    }

    [Fact]
    public void MovingSchedulesAboutInTheFileMovesNoRun()
    {
        var written = Lines(Schedules);
        Assert.Equal(written, Lines(Schedules.Reverse()));
        Assert.Equal(written, Lines(Schedules.OrderBy(schedule => schedule[^9..], StringComparer.Ordinal)));
    }

    [Fact]
    public void ExpandingTwiceGivesTheSame()
    {
        var timetable = Timetable.Of(Read(Garden(string.Join('\n', Schedules))), Horizon.YearFrom(new LocalDate(2026, 1, 1)));
        Assert.Equal(timetable.Runs(), timetable.Runs());
    }

    private static Run WithoutNumber(Run run) => run with { Number = 0 };

    private static readonly Comparer<Run> ByAll = Comparer<Run>.Create((x, y) =>
        (x.Start, x.Zone, x.Schedule, x.Day, x.StartNumber, x.Pass, x.Step).CompareTo((y.Start, y.Zone, y.Schedule, y.Day, y.StartNumber, y.Pass, y.Step)));

    private static Run[] Runs(IEnumerable<string> schedules, LocalDate from, int days) =>
        [.. Timetable.Of(Read(Garden(string.Join('\n', schedules))), Horizon.DaysFrom(from, days)).Runs()];

    private static string[] Lines(IEnumerable<string> schedules) => RunLines(Garden(string.Join('\n', schedules)), "2026-01-01", 365);
}
