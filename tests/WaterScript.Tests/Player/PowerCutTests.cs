using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;
using Xunit;

namespace WaterScript.Tests.Player;

/// <summary>When the power comes back, everything is closed, and what is still due is opened for what is left of it.</summary>
public sealed class PowerCutTests : PlayerWorkshop
{
    private const long Noon = 1_767_614_400;

    [ShellFact]
    public void The_latching_bench_is_as_it_should_be_after_a_cut_off_at_any_second()
    {
        var first = BenchRig.Switchings().First().Second;
        TakesUp(BenchRig, Enumerable.Range(-2, 45).Select(after => first + after));
    }

    [ShellTheory]
    [InlineData(1)]
    [InlineData(2)]
    public void The_sports_ground_is_as_it_should_be_after_a_cut_off_at_any_moment(int seed) =>
        TakesUp(SportsGround, MomentsAround(SportsGround, seed));

    [ShellTheory]
    [InlineData(3)]
    [InlineData(4)]
    public void The_mist_benches_are_as_they_should_be_after_a_cut_off_at_any_moment(int seed) =>
        TakesUp(Nursery, MomentsAround(Nursery, seed));

    [ShellFact]
    public void An_opening_that_is_joined_late_closes_when_it_would_have()
    {
        var list = SwitchingList.Of(Noon - 60, Noon + 3600, SwitchingRow.Of(Noon, 1, "open"), SwitchingRow.Of(Noon + 300, 1, "close"));
        Assert.Equal(
            ["0.000 boot", "0.000 1 close power-up", "0.000 1 open join", "100.000 1 close list", "3400.000 rest the list has ended: a new one is needed"],
            Play(list, Noon + 200).Select(line => line.Short(Noon + 200)));
    }

    [ShellFact]
    public void What_the_cut_took_is_not_made_up_for()
    {
        var list = SwitchingList.Of(Noon - 60, Noon + 3600, SwitchingRow.Of(Noon, 1, "open"), SwitchingRow.Of(Noon + 300, 1, "close"));
        Write("list.csv", list);
        List<LogLine> log = [.. Play(Noon - 10, $"--cut {Noon + 100} list.csv"), .. Play(Noon + 301, "list.csv")];
        Assert.Equal(
            ["-10.000 boot", "-10.000 1 close power-up", "0.000 1 open list", "301.000 boot", "301.000 1 close power-up",
                "3600.000 rest the list has ended: a new one is needed"],
            log.Select(line => line.Short(Noon)));
    }

    [ShellFact]
    public void What_is_joined_opens_in_the_order_of_the_list()
    {
        var list = SwitchingList.Of(
            Noon - 60,
            Noon + 3600,
            SwitchingRow.Of(Noon, 3, "open"),
            SwitchingRow.Of(Noon + 2, 1, "open"),
            SwitchingRow.Of(Noon + 4, 2, "open"),
            SwitchingRow.Of(Noon + 300, 1, "close"),
            SwitchingRow.Of(Noon + 300, 2, "close"),
            SwitchingRow.Of(Noon + 300, 3, "close"));
        Assert.Equal([3, 1, 2], Play(list, Noon + 200).Where(line => line.Why == "join").Select(line => line.Output));
    }

    /// <summary>The closing takes 0.8 s; by then output 1 is no longer due.</summary>
    [ShellFact]
    public void Pulses_keep_their_distance_also_when_the_power_comes_back()
    {
        var list = SwitchingList.Of(
            Noon - 60,
            Noon + 30,
            Pulse(-10_000, 1, "open"),
            Pulse(-5_000, 2, "open"),
            Pulse(500, 1, "close"),
            Pulse(20_000, 2, "close"));
        Assert.Equal(
            ["0.000 boot", "0.000 1 close power-up", "0.800 2 close power-up", "1.600 2 open join", "20.000 2 close list",
                "30.000 rest the list has ended: a new one is needed"],
            Play(list, Noon, "--stagger 800").Select(line => line.Short(Noon)));
    }

    /// <summary>Output 2 may be a latching valve, so 0.8 s go by after its closing; the guard of output 1 acts after 0.5 s.</summary>
    [ShellFact]
    public void What_the_guard_closes_before_its_turn_is_not_joined()
    {
        var list = SwitchingList.Of(Noon - 600, Noon + 30, SwitchingRow.Of(0, 1, "open", mostOn: 120) with { At = (Noon * 1000) - 119_500 });
        Assert.Equal(
            ["0.000 boot", "0.000 1 close power-up", "0.000 2 close power-up", "0.800 1 close guard", "30.000 rest the list has ended: a new one is needed"],
            Play(list, Noon, "--stagger 800 --outputs 2").Select(line => line.Short(Noon)));
    }

    [ShellFact]
    public void Outputs_that_the_list_does_not_name_are_closed_too()
    {
        var list = SwitchingList.Of(Noon, Noon + 3600, SwitchingRow.Of(Noon + 60, 2, "open"), SwitchingRow.Of(Noon + 120, 2, "close"));
        Assert.Equal([1, 2, 3, 4], Play(list, Noon, "--outputs 4").Where(line => line.Why == "power-up").Select(line => line.Output));
    }

    private static SwitchingRow Pulse(long afterNoon, int output, string what) =>
        new((Noon * 1000) + afterNoon, output, what, what == "open" ? "positive" : "negative", "40", 600, "1");

    /// <summary>At each moment it is as the timetable says, and from there it goes on as the timetable says.</summary>
    private void TakesUp(Timetable timetable, IEnumerable<long> moments)
    {
        List<Switching> meant = [.. timetable.Switchings()];
        Write("list.csv", SwitchingList.Of(timetable));
        foreach (var moment in moments)
        {
            var log = Play(moment, "list.csv");
            var atOnce = log.TakeWhile(line => line.At == moment * 1000 && line.Why != "list").ToList();

            Assert.Equal(atOnce.OrderBy(Rank), atOnce);
            Assert.Equal(OpenAt(meant, moment), LogLine.OpenAfter(atOnce));
            Assert.Equal(
                meant.Where(switching => switching.Milliseconds > moment * 1000)
                    .Select(switching => (switching.Milliseconds, switching.Output, switching.IsOpen)),
                log.Where(line => line.Why == "list").Select(line => (line.At, line.Output, line.Do == "open")));
        }
    }

    /// <summary>Outputs that are open at a second, once what is to happen at it has happened.</summary>
    private static SortedSet<int> OpenAt(IEnumerable<Switching> meant, long second) =>
        [.. meant.TakeWhile(switching => switching.Milliseconds <= second * 1000).GroupBy(switching => switching.Output).Where(of => of.Last().IsOpen)
            .Select(of => of.Key)];

    /// <summary>What a restart does first, and what next.</summary>
    private static int Rank(LogLine line) => line.Why switch { "" => 0, "power-up" => 1, _ => 2 };

    /// <summary>Moments that matter, at a switching, right before and after it, and some that lie anywhere.</summary>
    private static IEnumerable<long> MomentsAround(Timetable timetable, int seed)
    {
        var random = new Random(seed);
        List<long> seconds = [.. timetable.Switchings().Select(switching => switching.Second)];
        for (var count = 0; count < 20; count++)
            yield return seconds[random.Next(seconds.Count)] + random.Next(-1, 3);
        for (var count = 0; count < 10; count++)
            yield return random.NextInt64(seconds[0] - 3600, seconds[^1] + 3600);
    }
}
