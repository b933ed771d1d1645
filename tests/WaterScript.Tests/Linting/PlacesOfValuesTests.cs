using WaterScript.Linting.Engine;
using Xunit;

namespace WaterScript.Tests.Linting;

/// <summary>A finding that rests on a number of the file points at the line of that number, not at the thing that has it.</summary>
public class PlacesOfValuesTests
{
    [Theory]
    [InlineData("flow-over-supply", "flow 25 L/min")]
    [InlineData("flow-under-minimum", "minimum-flow 8 L/min")]
    [InlineData("daily-volume", "daily 500 L")]
    [InlineData("water-hammer", "flow 60 L/min")]
    [InlineData("tank-runs-dry", "tank 1000 L")]
    [InlineData("pump-starts", "at most 6 starts an hour")]
    [InlineData("vacuum-breaker-hours", "backflow atmospheric")]
    [InlineData("holding-current", "continuous 500 mA at 24 V")]
    [InlineData("inrush-current", "transformer 21 VA at 24 V")]
    [InlineData("too-many-zones", "at most 2 zones")]
    [InlineData("capacitor-not-recharged", "capacitor 2700 uF at 24 V", "minimum-voltage 7 V")]
    [InlineData("capacitor-too-small", "capacitor 1800 uF at 24 V", "minimum-voltage 12 V")]
    [InlineData("valves-left-open", "capacitor 4700 uF at 24 V", "stagger 100 ms")]
    [InlineData("voltage-drop", "wire 250 m 1.5 mm2", "minimum-voltage 22 V")]
    [InlineData("no-such-output", "output 5", "outputs 4")]
    [InlineData("output-shared", "output 1")]
    [InlineData("rest-too-short", "rest 30 min")]
    [InlineData("longer-than-longest", "longest 15 min")]
    [InlineData("dry-too-long", "never-dry-for 26 h")]
    [InlineData("clocks-apart", "clock within 20 s")]
    public void The_line_of_the_number_is_marked(string slug, params string[] lines)
    {
        var finding = Assert.Single(Lint.Of(RuleCatalogue.Find(slug)!.Fires, slug));
        var marked = finding.Others.Prepend(finding.Primary).Select(label => label.Location.Text).ToArray();
        Assert.All(lines, line => Assert.Contains(line, marked));
    }

    [Fact]
    public void The_peak_is_marked_where_it_is_what_is_broken()
    {
        var source = RuleCatalogue.Find("inrush-current")!.Fires.Replace("transformer 21 VA at 24 V", "continuous 1 A at 24 V; peak 1100 mA",
            StringComparison.Ordinal);
        Assert.Equal("peak 1100 mA", Assert.Single(Lint.Of(source, "inrush-current")).Others[^1].Location.Text);
    }

    [Fact]
    public void A_controller_that_never_runs_two_is_marked_where_it_says_so()
    {
        var source = RuleCatalogue.Find("schedules-overlap")!.Fires.Replace("outputs 4", "outputs 4; schedules never-overlap", StringComparison.Ordinal);
        Assert.Equal("schedules never-overlap", Assert.Single(Lint.Of(source, "schedules-overlap")).Others[^1].Location.Text);
    }
}
