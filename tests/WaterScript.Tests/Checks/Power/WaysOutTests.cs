using WaterScript.Diagnostics;
using WaterScript.Syntax.Formatting;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Checks.Power;

/// <summary>Ways out of what power supplies cannot carry: they are tried or reckoned, and applied they clear what they are proposed for.</summary>
public class WaysOutTests
{
    private const string Head = "site plot { timezone Etc/UTC; effective 2026-03-01 }\n";

    /// <summary>Three valves at once want 3 · 24 V · 0.4 A = 28.8 VA; one by one, the third wants 2 · 24 · 0.22 + 24 · 0.4 = 20.16 VA.</summary>
    [Theory]
    [InlineData("controller box {\n  outputs 4\n  power { transformer 21 VA at 24 V }\n}\n", "controller box {\n  outputs 4\n  spacing 500 ms\n  power { transformer 21 VA at 24 V }\n}\n")]
    [InlineData("controller box {\r\n  power { transformer 21 VA at 24 V }\r\n}\r\n", "controller box {\r\n  spacing 500 ms\r\n  power { transformer 21 VA at 24 V }\r\n}\r\n")]
    [InlineData("controller box { power { transformer 21 VA at 24 V } }\n", "controller box { spacing 500 ms; power { transformer 21 VA at 24 V } }\n")]
    [InlineData("controller box { outputs 4; power { transformer 21 VA at 24 V } }\n", "controller box { outputs 4; spacing 500 ms; power { transformer 21 VA at 24 V } }\n")]
    [InlineData("controller box {\n  at most 4 zones\n  # in the shed\n  power { transformer 21 VA at 24 V }\n}\n", "controller box {\n  at most 4 zones\n  spacing 500 ms\n  # in the shed\n  power { transformer 21 VA at 24 V }\n}\n")]
    [InlineData("controller box {\n  schedules may-overlap\n  power { transformer 21 VA at 24 V }\n}\n", "controller box {\n  schedules may-overlap\n  spacing   500 ms\n  power { transformer 21 VA at 24 V }\n}\n")]
    public void A_spacing_that_clears_an_inrush_is_written_as_the_layout_has_it(string controller, string mended)
    {
        var lineEnd = controller.Contains('\r', StringComparison.Ordinal) ? "\r\n" : "\n";
        var site = LaidOut((Head + controller + Valves(3)).ReplaceLineEndings(lineEnd));

        var finding = Assert.Single(Lint.Of(site, "inrush-over"));
        var text = Mended(finding.Fix!);

        Assert.Equal("Write spacing 500 ms in box: it then opens one by one, which clears it.", finding.WayOut);
        Assert.Equal(LaidOut((Head + mended + Valves(3)).ReplaceLineEndings(lineEnd)), text);
        Assert.Empty(Lint.Of(text, "inrush-over"));
    }

    [Fact]
    public void In_a_file_with_a_layout_of_its_own_nothing_else_is_touched()
    {
        var site = $"{Head}controller box {{\n\toutputs 4\n\tpower  {{ transformer 21 VA at 24 V }}\n}}\n{Valves(3)}";

        Assert.Equal(site.Replace("\tpower", "\tspacing 500 ms\n\tpower", StringComparison.Ordinal), Mended(Assert.Single(Lint.Of(site, "inrush-over")).Fix!));
    }

    /// <summary>One by one, the third wants 20.16 VA; there are 20. One after the other, each wants 9.6 VA.</summary>
    [Fact]
    public void Where_one_by_one_is_too_much_no_spacing_is_proposed()
    {
        var finding = Assert.Single(Lint.Of($"{Head}controller box {{ power {{ transformer 20 VA at 24 V }} }}\n{Valves(3)}", "inrush-over"));

        Assert.Equal("Even one by one, with a `spacing`, up to 20.16 VA would be wanted. Water them one after the other: write a comma in place of a plus.", finding.WayOut);
        Assert.Empty(Lint.Of(Mended(finding.Fix!), "inrush-over"));
    }

    /// <summary>24 V · 0.4 A = 9.6 VA.</summary>
    [Fact]
    public void A_valve_that_wants_too_much_alone_is_told_as_such()
    {
        var finding = Assert.Single(Lint.Of($"{Head}controller box {{ power {{ transformer 9 VA at 24 V }} }}\n{Valves(1)}", "inrush-over"));

        Assert.Equal("Take a power supply that gives more for a moment, or a valve that wants less.", finding.WayOut);
        Assert.Null(finding.Fix);
    }

    [Fact]
    public void A_manual_pass_is_tried_too()
    {
        var site = $"{Head}controller box {{ power {{ transformer 21 VA at 24 V }} }}\n{Valves(3).Replace("on mon; start at 06:00", "manual", StringComparison.Ordinal)}";

        Assert.Empty(Lint.Of(Mended(Assert.Single(Lint.Of(site, "inrush-over")).Fix!), "inrush-over"));
    }

    /// <summary>From 2200 µF at 24 V and 0.4 W a spacing of 1.3 s is enough (see the worked numbers); the controller has none yet.</summary>
    [Theory]
    [InlineData("controller box { outputs 2; power { store 2200 uF at 24 V; recharge 0.5 W efficiency 80 % } }\n", "outputs 2; spacing 1300 ms; power")]
    [InlineData("controller box {\n  outputs 2\n  power { store 2200 uF at 24 V; recharge 0.5 W efficiency 80 % }\n}\n", "  outputs 2\n  spacing 1300 ms\n  power")]
    public void A_spacing_that_the_recharge_fits_into_is_written_where_there_is_none(string controller, string mended)
    {
        var site = $"{Head}{controller}valve click latching {{ pulse 50 ms; coil 20 ohm; works-from 7 V }}\nzone a {{ output 1; valve click }}\nzone b {{ output 2; valve click }}\nschedule s {{ on mon; start at 06:00; steps {{ water a, b for 5 s }} }}\n";
        var finding = Assert.Single(Lint.Of(site, "pulse-too-soon"));
        var text = Mended(finding.Fix!);

        Assert.Equal("Write spacing 1300 ms in box, or take a larger store.", finding.WayOut);
        Assert.Contains(mended, text, StringComparison.Ordinal);
        Assert.Empty(Lint.Of(text).Findings.Where(found => found.Rule.Slug is "pulse-too-soon" or "cannot-close-all"));
    }

    private static string Valves(int count)
    {
        var zones = Enumerable.Range(1, count).Select(number => $"zone v{number} {{ output {number}; valve ac24; flow 1 L/min }}\n");
        var together = string.Join(" + ", Enumerable.Range(1, count).Select(number => $"v{number}"));
        return $"valve ac24 non-latching {{ inrush 400 mA; holding 220 mA }}\n{string.Concat(zones)}schedule s {{ on mon; start at 06:00; steps {{ water {together} for 10 min }} }}\n";
    }

    private static string LaidOut(string text) => Formatter.Format(SourceText.From("site.water", text), new FindingList())!.Text;

    private static string Mended(Fix fix) => Assert.Single(FixSet.Apply([fix])).Value.Text;
}
