using Xunit;

namespace WaterScript.Tests.Player;

/// <summary>Outside a list, and without a clock, everything is closed and stays so.</summary>
public sealed class RestTests : PlayerWorkshop
{
    private const long Noon = 1_767_614_400;

    private static readonly string List = SwitchingList.Of(Noon, Noon + 3600, SwitchingRow.Of(Noon + 60, 1, "open"), SwitchingRow.Of(Noon + 120, 1, "close"));

    [ShellFact]
    public void Before_a_list_begins_it_rests_and_says_until_when() =>
        Assert.Equal(
            ["-500.000 boot", "-500.000 1 close power-up", "-500.000 rest the list begins at 1767614400", "60.000 1 open list", "120.000 1 close list",
                "3600.000 rest the list has ended: a new one is needed"],
            Play(List, Noon - 500).Select(line => line.Short(Noon)));

    [ShellFact]
    public void After_a_list_has_ended_it_rests_until_a_new_one_comes() =>
        Assert.Equal(
            ["9000.000 boot", "9000.000 1 close power-up", "9000.000 rest the list has ended: a new one is needed"],
            Play(List, Noon + 9000).Select(line => line.Short(Noon)));

    [ShellFact]
    public void A_pass_that_begins_before_the_end_is_carried_out_to_its_own_end() =>
        Assert.Equal(
            ["3599.000 1 open list", "4199.000 1 close list", "4199.000 rest the list has ended: a new one is needed"],
            Play(SwitchingList.Of(Noon, Noon + 3600, SwitchingRow.Of(Noon + 3599, 1, "open", mostOn: 660),
                SwitchingRow.Of(Noon + 4199, 1, "close", mostOn: 660)), Noon)
                .Where(line => line.Why is not ("" or "power-up")).Select(line => line.Short(Noon)));

    [ShellFact]
    public void A_pump_that_starts_before_the_first_second_is_joined_and_the_list_is_not_said_to_begin_later() =>
        Assert.Equal(
            ["-1.000 2 open join", "600.000 2 close list", "3600.000 rest the list has ended: a new one is needed"],
            Play(SwitchingList.Of(Noon, Noon + 3600, SwitchingRow.Of(Noon - 5, 2, "open", mostOn: 900), SwitchingRow.Of(Noon + 600, 2, "close", mostOn: 900)),
                Noon - 1)
                .Where(line => line.Why is not ("" or "power-up")).Select(line => line.Short(Noon)));

    [ShellFact]
    public void A_list_without_a_row_is_a_rest() =>
        Assert.Equal(
            ["0.000 boot", "0.000 1 close power-up", "0.000 2 close power-up", "3600.000 rest the list has ended: a new one is needed"],
            Play(SwitchingList.Of(Noon, Noon + 3600, Array.Empty<SwitchingRow>()), Noon, "--outputs 2").Select(line => line.Short(Noon)));

    [ShellTheory]
    [InlineData(0)]
    [InlineData(946_684_800)]
    public void Without_a_clock_it_closes_everything_and_rests(long second)
    {
        Write("list.csv", List);
        var result = Call($"--from {second} list.csv");
        Assert.Equal(("", 3), (result.Error, result.ExitCode));
        Assert.Equal(["0.000 boot", "0.000 1 close power-up", "0.000 rest the clock is not set"],
            LogLine.Read(result.Output).Select(line => line.Short(second)));
    }
}
