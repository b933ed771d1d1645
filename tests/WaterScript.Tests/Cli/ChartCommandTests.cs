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
            "Garden: Sat 28 Feb to Mon 2 Mar 2026, 2 nights from noon to noon on one axis, Europe/Lisbon. 4 runs, 200 L where the flow is known.\n",
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
        Assert.Contains("class=\"sign error\"", Read("garden.svg"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("year.svg", "svg")]
    [InlineData("year.html", "html")]
    public void A_year_begins_with_the_site_or_where_it_is_said(string name, string root)
    {
        Write("garden.water", Good);

        var own = Run("chart", "garden.water", "--year", "-o", name);
        var later = Run("chart", "garden.water", "--year", "--from", "2027-02-01", "-o", name);

        Assert.Equal((0, 0), (own.ExitCode, later.ExitCode));
        Assert.Contains("Garden: Sun 1 Mar 2026 to Sun 28 Feb 2027, Europe/Lisbon. Water on 365 days", own.Error, StringComparison.Ordinal);
        Assert.Contains("Garden: Mon 1 Feb 2027 to Mon 31 Jan 2028", later.Error, StringComparison.Ordinal);
        Assert.Contains($"<{root} ", Read(name), StringComparison.Ordinal);
        if (root == "svg") Assert.Equal(root, XDocument.Parse(Read(name)).Root!.Name.LocalName);
    }

    [Fact]
    public void Bars_lead_where_the_source_link_says()
    {
        Write("garden.water", Good);

        Assert.Equal(0, Run("chart", "garden.water", "-o", "garden.html", "--source-link", "https://example.org/{path}#L{line}").ExitCode);

        Assert.Contains("href=\"https://example.org/garden.water#L", Read("garden.html"), StringComparison.Ordinal);
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
    [InlineData("chart garden.water -o garden.svg --days 32", "--days must be 1 to 31")]
    [InlineData("chart garden.water -o garden.svg --from soon", "--from needs a date such as 2026-05-01, not soon")]
    [InlineData("chart manual.water -o garden.svg", "manual has no watering with dates to draw")]
    [InlineData("chart garden.water -o garden.svg --year --days 3", "--year draws a year, --days some days; choose one")]
    [InlineData("chart garden.water -o garden.svg --source-link javascript:{line}", "--source-link needs an address such as https://example.org/")]
    [InlineData("chart garden.water -o garden.svg --source-link https://example.org/", "--source-link needs an address such as https://example.org/")]
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
