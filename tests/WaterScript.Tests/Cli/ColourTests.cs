using NodaTime;
using WaterScript.Cli;
using WaterScript.Cli.Files;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>When text for people has colours (no-color.org, force-color.org).</summary>
public sealed class ColourTests : Workshop
{
    [Theory]
    [InlineData("", false, true)]
    [InlineData("", true, false)]
    [InlineData("NO_COLOR=1", false, false)]
    [InlineData("FORCE_COLOR=1", true, true)]
    [InlineData("FORCE_COLOR=1 NO_COLOR=1", true, false)]
    [InlineData("TERM=dumb", false, false)]
    public void Variables_and_the_terminal_decide(string variables, bool isRedirected, bool hasColour)
    {
        var values = variables.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(pair => pair.Split('=')).ToDictionary(pair => pair[0], pair => pair[1]);
        var surroundings = new Surroundings("", name => values.GetValueOrDefault(name), SystemClock.Instance);
        Assert.Equal(hasColour, Terminal.UsesColour(surroundings, isRedirected));
    }

    [Theory]
    [InlineData("--color always check site.water", true)]
    [InlineData("check site.water --color always", true)]
    [InlineData("check site.water --color never", false)]
    [InlineData("check site.water --color auto", false)]
    public void One_command_can_ask_for_them(string line, bool hasColour)
    {
        Write("site.water", Good.Replace("10 min", "10min", StringComparison.Ordinal));
        Assert.Equal(hasColour, RunLine(line).Output.Contains('\e', StringComparison.Ordinal));
    }

    [Fact]
    public void A_quiet_check_says_what_it_finds_and_no_more()
    {
        Write("site.water", Good);
        Assert.Equal("", RunLine("check site.water --quiet").Output);
        Write("site.water", Good.Replace("10 min", "10min", StringComparison.Ordinal));
        var output = RunLine("check site.water --quiet").Output;
        Assert.Contains("[unusual-form]", output, StringComparison.Ordinal);
        Assert.DoesNotContain("Garden:", output, StringComparison.Ordinal);
    }
}
