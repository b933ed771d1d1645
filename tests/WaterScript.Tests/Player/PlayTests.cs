using System.Globalization;
using Xunit;

namespace WaterScript.Tests.Player;

/// <summary>What the player does is what the list says, at the time it says, and nothing else.</summary>
public sealed class PlayTests : PlayerWorkshop
{
    [ShellFact]
    public void A_latching_bench_takes_turns_every_seven_seconds() => PlaysAsWritten(SwitchingList.Of(BenchRig), rows: 60);

    [ShellFact]
    public void A_ground_of_twelve_zones_runs_with_its_pump_and_its_master() => PlaysAsWritten(SwitchingList.Of(SportsGround), rows: 12);

    [ShellFact]
    public void A_mist_bench_gets_its_burst_every_eight_minutes() => PlaysAsWritten(SwitchingList.Of(Nursery), rows: 400);

    [ShellFact]
    public void Waiting_changes_nothing()
    {
        var list = SwitchingList.Of(BenchRig);
        var first = SwitchingList.Rows(list)[0].At / 1000;
        var cut = string.Create(CultureInfo.InvariantCulture, $"--cut {first + 60}");

        Assert.Equal(Play(list, first - 2, cut), Play(list, first - 2, cut + " --speed 1000"));
    }

    /// <summary>Every row, in order, and around them only the closing at power-up and the rest before and after.</summary>
    private void PlaysAsWritten(string list, int rows)
    {
        var written = SwitchingList.Rows(list);
        var (from, until) = SwitchingList.Horizon(list);
        Assert.True(written.Count >= rows, $"{written.Count} rows");

        var log = Play(list, from - 60);

        Assert.Equal("boot", log[0].Do);
        Assert.Equal(
            written.Select(row => row.Output).Max(),
            log.Skip(1).TakeWhile(line => line is { Do: "close", Why: "power-up" }).Count());
        Assert.Equal(
            written,
            log.Where(line => line.Why == "list").Select(line => new SwitchingRow(line.At, line.Output, line.Do, line.Polarity, line.PulseMs, MostOn(written, line.Output), line.Opening)));
        Assert.Equal(
            [(from - 60) * 1000, Math.Max(until * 1000, written[^1].At)],
            log.Where(line => line.Do == "rest").Select(line => line.At));
        Assert.DoesNotContain(log, line => line.Why is "join" or "guard");
        Assert.Empty(LogLine.OpenAfter(log));
        Assert.All(log, line => Assert.Equal(log[0].List, line.List));
        Assert.Contains("," + log[0].List, list.Split("\r\n")[^2], StringComparison.Ordinal);
    }

    private static long MostOn(List<SwitchingRow> rows, int output) => rows.First(row => row.Output == output).MostOn;
}
