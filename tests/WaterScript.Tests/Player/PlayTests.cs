using System.Globalization;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;
using Xunit;

namespace WaterScript.Tests.Player;

/// <summary>What the player does is what the list says, at the time it says, and nothing else.</summary>
public sealed class PlayTests : PlayerWorkshop
{
    [ShellFact]
    public void A_latching_bench_takes_turns_every_seven_seconds() => PlaysAsMeant(BenchRig, atLeast: 60);

    [ShellFact]
    public void A_ground_of_twelve_zones_runs_with_its_pump_and_its_master() => PlaysAsMeant(SportsGround, atLeast: 100);

    [ShellFact]
    public void A_mist_bench_gets_its_burst_every_eight_minutes() => PlaysAsMeant(Nursery, atLeast: 400);

    [ShellFact]
    public void Waiting_changes_nothing()
    {
        var list = SwitchingList.Of(BenchRig);
        var first = SwitchingList.Rows(list)[0].At / 1000;
        var cut = string.Create(CultureInfo.InvariantCulture, $"--cut {first + 60}");

        Assert.Equal(Play(list, first - 2, cut), Play(list, first - 2, cut + " --speed 1000"));
    }

    /// <summary>The master valve and a zone are open whenever the pump runs.</summary>
    [ShellFact]
    public void The_pump_never_runs_against_closed_valves()
    {
        var site = SportsGround.Site;
        int OutputOf(string device) => site.Devices.Single(one => one.Name == device).Output;
        var (master, pump) = (OutputOf("main"), OutputOf("booster"));
        var list = SwitchingList.Of(SportsGround);
        var moments = Play(list, SwitchingList.Bounds(list).From).GroupBy(line => line.At).ToList();
        List<LogLine> done = [];
        foreach (var moment in moments)
        {
            done = [.. done, .. moment];
            var open = LogLine.OpenAfter(done);
            Assert.True(!open.Contains(pump) || (open.Contains(master) && open.Count >= 3), $"only {string.Join(", ", open)} at {moment.Key}");
        }

        Assert.Contains(done, line => line.Output == pump && line.Do == "open");
    }

    /// <summary>Every switching, in order, and around them only the closing at power-up and the rest before and after.</summary>
    private void PlaysAsMeant(Timetable timetable, int atLeast)
    {
        var list = SwitchingList.Of(timetable);
        var (from, until) = SwitchingList.Bounds(list);
        List<Switching> meant = [.. timetable.Switchings()];
        Assert.True(meant.Count >= atLeast, $"{meant.Count} switchings");
        Assert.Equal(SwitchingList.ByHand(timetable), list);

        var log = Play(list, from - 60);

        Assert.Equal("boot", log[0].Do);
        Assert.Equal(
            Enumerable.Range(1, meant.Max(switching => switching.Output)),
            log.Skip(1).TakeWhile(line => line is { Do: "close", Why: "power-up" }).Select(line => line.Output));
        Assert.Equal(
            meant.Select(switching => (switching.Milliseconds, switching.Output, switching.IsOpen, Number(switching.Opening))),
            log.Where(line => line.Why == "list").Select(line => (line.At, line.Output, line.Do == "open", line.Opening)));
        Assert.Equal(
            SwitchingList.Rows(list).Select(row => (row.Polarity, row.PulseMs)),
            log.Where(line => line.Why == "list").Select(line => (line.Polarity, line.PulseMs)));
        Assert.Equal(
            [(from - 60) * 1000, Math.Max(until * 1000, meant[^1].Milliseconds)],
            log.Where(line => line.Do == "rest").Select(line => line.At));
        Assert.DoesNotContain(log, line => line.Why is "join" or "guard");
        Assert.Empty(LogLine.OpenAfter(log));
        Assert.All(log, line => Assert.Equal(log[0].List, line.List));
        Assert.Contains("," + log[0].List, list.Split("\r\n")[^2], StringComparison.Ordinal);
    }

    private static string Number(long number) => number.ToString(CultureInfo.InvariantCulture);
}
