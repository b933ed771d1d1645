using WaterScript.Tests.Documentation;
using Xunit;

namespace WaterScript.Tests.Player;

/// <summary>What the contract with a device shows is so.</summary>
public sealed class ContractTests : PlayerWorkshop
{
    private static readonly string Page = Repository.Read("docs/carrying-out-a-timetable.md").ReplaceLineEndings("\n");

    [Fact]
    public void The_list_that_it_shows_is_that_of_the_bench_rig()
    {
        var lines = SwitchingList.Of(BenchRig).Split("\r\n");
        Assert.Contains(string.Join('\n', lines[..7]) + "\n", Page, StringComparison.Ordinal);
        Assert.Contains($"\n{lines[^2].TrimEnd(',')},", Page, StringComparison.Ordinal);
    }

    [Fact]
    public void It_explains_every_field_of_a_list()
    {
        var fields = SwitchingList.Of(BenchRig).Split("\r\n")[0].Split(',');
        var explained = Page.Split('\n').SkipWhile(line => line != "| field | holds |").Skip(2).TakeWhile(line => line.StartsWith('|'));
        Assert.Equal(fields, explained.Select(row => row.Split('`')[1]));
    }
}
