using System.Xml.Linq;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>The command <c>chart</c>.</summary>
public sealed class ChartCommandTests : Workshop
{
    [Theory]
    [InlineData("garden.svg", "svg")]
    [InlineData("garden.html", "html")]
    public void A_chart_is_drawn_in_the_form_that_the_name_says(string name, string root)
    {
        Write("garden.water", Good);

        var result = Run("chart", "garden.water", "-o", name, "--days", "2");

        Assert.Equal((0, ""), (result.ExitCode, result.Output));
        Assert.EndsWith(
            "Garden: Sat 28 Feb 2026 12:00 to Mon 2 Mar 2026 12:00, Europe/Lisbon. 4 runs, valves open 40 min in all, 200 L where the flow is known.\n",
            result.Error, StringComparison.Ordinal);
        Assert.Contains($"<{root} ", Read(name), StringComparison.Ordinal);
        if (root == "svg") Assert.Equal(root, XDocument.Parse(Read(name)).Root!.Name.LocalName);
    }

    [Fact]
    public void A_site_with_a_mistake_in_time_is_drawn_with_its_mark_and_the_status_says_so()
    {
        Write("garden.water", Good.Replace("zone lawn", "supply tap { flow 6 L/min }\nzone lawn", StringComparison.Ordinal));

        var result = Run("chart", "garden.water", "-o", "garden.svg");

        Assert.Equal(1, result.ExitCode);
        Assert.Contains("flow-over-supply", result.Error, StringComparison.Ordinal);
        Assert.Contains("class=\"mark\"", Read("garden.svg"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_site_that_cannot_be_read_is_not_drawn()
    {
        Write("garden.water", Good.Replace("10 min", "10", StringComparison.Ordinal));

        var result = Run("chart", "garden.water", "-o", "garden.svg");

        Assert.Equal(1, result.ExitCode);
        Assert.EndsWith("Nothing was drawn.\n", result.Error, StringComparison.Ordinal);
        Assert.Equal(["garden.water"], Names());
    }

    [Theory]
    [InlineData("chart garden.water", "write where to draw: -o NAME.svg for a document, -o NAME.html for a screen")]
    [InlineData("chart garden.water -o garden.png", "garden.png: use a name ending in .svg or .html")]
    [InlineData("chart garden.water -o garden.svg --days 32", "--days must be a number of days from 1 to 31")]
    [InlineData("chart garden.water -o garden.svg --from soon", "\"soon\" is not a date, as --from needs one")]
    [InlineData("chart manual.water -o garden.svg", "manual has no watering with dates to draw")]
    [InlineData("chart often.water -o garden.svg --days 31", "there are more than the 20000 runs that a chart can show; choose fewer --days")]
    public void What_cannot_be_drawn_says_why(string line, string why)
    {
        Write("garden.water", Good);
        Write("manual.water",
            "site manual { timezone Europe/Lisbon; effective 2026-03-01 }\nzone a { output 1 }\nschedule s { manual; steps { water a for 5 min } }\n");
        Write(
            "often.water",
            "site often { timezone Europe/Lisbon; effective 2026-03-01 }\nzone a { output 1 }\n"
                + "schedule s { every day; start at 00:00; repeat every 1 min until 23:59; steps { water a for 5 s } }\n");

        var result = RunLine(line);

        Assert.Equal(2, result.ExitCode);
        Assert.Contains(why, result.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(PathOf("garden.svg")));
    }
}
