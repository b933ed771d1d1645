using Xunit;

namespace WaterScript.Tests.Player;

/// <summary>Lists made wrong on purpose, under a true hash: the player closes by itself what would stay open for too long.</summary>
public sealed class GuardTests : PlayerWorkshop
{
    private const long Noon = 1_767_614_400;

    [ShellFact]
    public void An_output_without_a_close_is_closed() =>
        Assert.Equal(
            ["0.000 1 open list", "120.000 1 close guard", "3600.000 rest the list has ended: a new one is needed"],
            PlayFrom(Noon - 1, SwitchingRow.Of(Noon, 1, "open", mostOn: 120)));

    [ShellFact]
    public void A_close_that_comes_too_late_is_carried_out_as_well() =>
        Assert.Equal(
            ["0.000 1 open list", "120.000 1 close guard", "500.000 1 close list", "3600.000 rest the list has ended: a new one is needed"],
            PlayFrom(Noon - 1, SwitchingRow.Of(Noon, 1, "open", mostOn: 120), SwitchingRow.Of(Noon + 500, 1, "close", mostOn: 120)));

    [ShellFact]
    public void A_second_open_does_not_wind_the_guard_up_again() =>
        Assert.Equal(
            ["0.000 1 open list", "120.000 1 close guard", "3600.000 rest the list has ended: a new one is needed"],
            PlayFrom(Noon - 1, SwitchingRow.Of(Noon, 1, "open", mostOn: 120), SwitchingRow.Of(Noon + 100, 1, "open", mostOn: 120)));

    [ShellFact]
    public void The_next_opening_is_carried_out_again() =>
        Assert.Equal(
            ["0.000 1 open list", "120.000 1 close guard", "300.000 1 open list", "360.000 1 close list",
                "3600.000 rest the list has ended: a new one is needed"],
            PlayFrom(
                Noon - 1,
                SwitchingRow.Of(Noon, 1, "open", mostOn: 120),
                SwitchingRow.Of(Noon + 300, 1, "open", mostOn: 120),
                SwitchingRow.Of(Noon + 360, 1, "close", mostOn: 120)));

    [ShellFact]
    public void Guards_of_several_outputs_act_in_order_of_time_between_the_rows() =>
        Assert.Equal(
            ["0.000 1 open list", "10.000 2 open list", "70.000 2 close guard", "90.000 3 open list", "120.000 1 close guard", "130.000 3 close list",
                "3600.000 rest the list has ended: a new one is needed"],
            PlayFrom(
                Noon - 1,
                SwitchingRow.Of(Noon, 1, "open", mostOn: 120),
                SwitchingRow.Of(Noon + 10, 2, "open", mostOn: 60),
                SwitchingRow.Of(Noon + 90, 3, "open", mostOn: 60),
                SwitchingRow.Of(Noon + 130, 3, "close", mostOn: 60)));

    [ShellFact]
    public void A_cut_does_not_wind_the_guard_up_again() =>
        Assert.Equal(
            ["100.000 1 open join", "120.000 1 close guard", "3600.000 rest the list has ended: a new one is needed"],
            PlayFrom(Noon + 100, SwitchingRow.Of(Noon, 1, "open", mostOn: 120)));

    [ShellFact]
    public void What_the_guard_would_have_closed_is_not_joined() =>
        Assert.Equal(
            ["3600.000 rest the list has ended: a new one is needed"],
            PlayFrom(Noon + 120, SwitchingRow.Of(Noon, 1, "open", mostOn: 120)));

    [ShellFact]
    public void The_guard_holds_after_the_end_of_the_list() =>
        Assert.Equal(
            ["3500.000 1 open list", "3620.000 1 close guard", "3620.000 rest the list has ended: a new one is needed"],
            PlayFrom(Noon, SwitchingRow.Of(Noon + 3500, 1, "open", mostOn: 120)));

    /// <summary>Ten at a time of the openings of the mist benches lose their close.</summary>
    [ShellFact]
    public void Nothing_is_ever_open_for_longer_than_it_may_be()
    {
        var random = new Random(5);
        var rows = SwitchingList.Rows(SwitchingList.Of(Nursery));
        var lost = Enumerable.Range(0, 10).Select(_ => rows.Where(row => row.Do == "close").ElementAt(random.Next(rows.Count / 2)).Opening).ToHashSet();
        SwitchingRow[] kept = [.. rows.Where(row => row.Do == "open" || !lost.Contains(row.Opening))];

        var log = Play(SwitchingList.Of(rows[0].At / 1000, (rows[^1].At / 1000) + 1, kept), (rows[0].At / 1000) - 1);

        Assert.Equal(lost.Count, log.Count(line => line.Why == "guard"));
        foreach (var open in log.Where(line => line.Do == "open"))
        {
            var close = log.First(line => line.At >= open.At && line.Output == open.Output && line.Do == "close");
            Assert.InRange(close.At - open.At, 1, rows.First(row => row.Output == open.Output).MostOn * 1000);
        }
    }

    /// <summary>What happens in a list from noon for an hour, after power-up.</summary>
    private IEnumerable<string> PlayFrom(long second, params SwitchingRow[] rows) =>
        Play(SwitchingList.Of(Noon - 60, Noon + 3600, rows), second).Where(line => line.Why is not ("" or "power-up")).Select(line => line.Short(Noon));
}
