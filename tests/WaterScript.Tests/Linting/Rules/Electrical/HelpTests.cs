using WaterScript.Diagnostics;
using WaterScript.Linting.Fixes;
using WaterScript.Syntax.Formatting;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Linting.Rules.Electrical;

/// <summary>Fixes of what power supplies cannot carry: they are tried or calculated, and applied they clear what they are proposed for.</summary>
public class HelpTests
{
    private const string Head = "site plot { timezone Etc/UTC; effective 2026-03-01 }\n";

    /// <summary>Three valves at once need 3 · 24 V · 0.4 A = 28.8 VA; one by one, the third needs 2 · 24 · 0.22 + 24 · 0.4 = 20.16 VA.</summary>
    [Theory]
    [InlineData("controller box {\n  outputs 4\n  power { transformer 21 VA at 24 V }\n}\n",
        "controller box {\n  outputs 4\n  stagger 500 ms\n  power { transformer 21 VA at 24 V }\n}\n")]
    [InlineData("controller box {\r\n  power { transformer 21 VA at 24 V }\r\n}\r\n",
        "controller box {\r\n  stagger 500 ms\r\n  power { transformer 21 VA at 24 V }\r\n}\r\n")]
    [InlineData("controller box { power { transformer 21 VA at 24 V } }\n", "controller box { stagger 500 ms; power { transformer 21 VA at 24 V } }\n")]
    [InlineData("controller box { outputs 4; power { transformer 21 VA at 24 V } }\n",
        "controller box { outputs 4; stagger 500 ms; power { transformer 21 VA at 24 V } }\n")]
    [InlineData("controller box {\n  at most 4 zones\n  # in the shed\n  power { transformer 21 VA at 24 V }\n}\n",
        "controller box {\n  at most 4 zones\n  stagger 500 ms\n  # in the shed\n  power { transformer 21 VA at 24 V }\n}\n")]
    [InlineData("controller box {\n  schedules may-overlap\n  power { transformer 21 VA at 24 V }\n}\n",
        "controller box {\n  schedules may-overlap\n  stagger   500 ms\n  power { transformer 21 VA at 24 V }\n}\n")]
    public void A_stagger_that_clears_an_inrush_is_written_as_the_layout_has_it(string controller, string corrected)
    {
        var lineEnd = controller.Contains('\r', StringComparison.Ordinal) ? "\r\n" : "\n";
        var site = LaidOut((Head + controller + Valves(3)).ReplaceLineEndings(lineEnd));

        var finding = Assert.Single(Lint.Of(site, "inrush-current"));
        var text = Fixed(finding.Fix!);

        Assert.Equal("Write `stagger 500 ms` in controller box: its valves then open one by one, which clears it.", finding.Help);
        Assert.Equal(LaidOut((Head + corrected + Valves(3)).ReplaceLineEndings(lineEnd)), text);
        Assert.Empty(Lint.Of(text, "inrush-current"));
    }

    [Fact]
    public void In_a_block_with_a_layout_of_its_own_nothing_else_is_touched()
    {
        var site = $"{Head}controller box {{\n\toutputs 4\n\tpower  {{ transformer 21 VA at 24 V }}\n}}\n{Valves(3)}";

        Assert.Equal(
            site.Replace("\tpower", "\tstagger 500 ms\n\tpower", StringComparison.Ordinal), Fixed(Assert.Single(Lint.Of(site, "inrush-current")).Fix!));
    }

    /// <summary>One by one, the third needs 20.16 VA; there are 20. One after the other, each needs 9.6 VA.</summary>
    [Fact]
    public void Where_one_by_one_is_too_much_no_stagger_is_proposed()
    {
        var finding = Assert.Single(Lint.Of($"{Head}controller box {{ power {{ transformer 20 VA at 24 V }} }}\n{Valves(3)}", "inrush-current"));

        Assert.Equal("Water them one after the other: even with a `stagger`, up to 20.16 VA is needed.",
            finding.Help);
        Assert.Empty(Lint.Of(Fixed(finding.Fix!), "inrush-current"));
    }

    /// <summary>24 V · 0.4 A = 9.6 VA.</summary>
    [Fact]
    public void A_valve_that_needs_too_much_alone_is_reported_as_such()
    {
        var finding = Assert.Single(Lint.Of($"{Head}controller box {{ power {{ transformer 9 VA at 24 V }} }}\n{Valves(1)}", "inrush-current"));

        Assert.Equal("Use a stronger power source, or a valve that needs less.", finding.Help);
        Assert.Null(finding.Fix);
    }

    [Fact]
    public void A_manual_pass_is_tried_too()
    {
        var site = $"{Head}controller box {{ power {{ transformer 21 VA at 24 V }} }}\n"
            + Valves(3).Replace("on mon; start at 06:00", "manual", StringComparison.Ordinal);

        Assert.Empty(Lint.Of(Fixed(Assert.Single(Lint.Of(site, "inrush-current")).Fix!), "inrush-current"));
    }

    /// <summary>
    /// From 2200 µF at 24 V and 0.4 W a stagger of 1.3 s is enough (see the worked numbers; the set-up is common practice); the controller has none yet.
    /// </summary>
    [Theory]
    [InlineData("controller box { outputs 2; power { capacitor 2200 uF at 24 V; recharge 0.5 W efficiency 80 % } }\n", "outputs 2; stagger 1300 ms; power")]
    [InlineData("controller box {\n  outputs 2\n  power { capacitor 2200 uF at 24 V; recharge 0.5 W efficiency 80 % }\n}\n",
        "  outputs 2\n  stagger 1300 ms\n  power")]
    public void A_stagger_that_the_recharge_fits_into_is_written_where_there_is_none(string controller, string corrected)
    {
        var site = $"{Head}{controller}valve click latching {{ pulse 50 ms; coil 20 ohm; minimum-voltage 7 V }}\nzone a {{ output 1; valve click }}\n"
            + "zone b { output 2; valve click }\nschedule s { on mon; start at 06:00; steps { water a, b for 5 s } }\n";
        var finding = Assert.Single(Lint.Of(site, "capacitor-not-recharged"));
        var text = Fixed(finding.Fix!);

        Assert.Equal("Write `stagger 1300 ms` in controller box, or use a larger capacitor.", finding.Help);
        Assert.Contains(corrected, text, StringComparison.Ordinal);
        Assert.Empty(Lint.Of(text).Findings.Where(found => found.Rule.Slug is "capacitor-not-recharged" or "valves-left-open"));
    }

    /// <summary>
    /// Of 24 V, 2 may be lost at 0.4 A: 5 ohm out and back, at 40 °C as 4.6356 ohm at 20 °C (1 + 20 · 0.00393 = 1.0786). 1.5 mm2 (12.1 ohm/km) has them in
    /// 191.6 m; 250 m of 2.5 mm2 (7.41 ohm/km) have 3.7. 700 m of 4 mm2 have 6.45, of 6 mm2 (3.08 ohm/km) 4.31; 1500 m of 10 mm2 (1.83 ohm/km) 5.49, of 16 mm2
    /// (1.15) 3.45; 4000 m of 25 mm2 (0.727) 5.82, of 35 mm2 (0.524) 4.19; 20 km of 50 mm2 (0.387) 15.5.
    /// 18 AWG (6.385 ohm/1000 ft) has them in 363.0 ft, and 500 ft of 16 AWG (4.016) have 4.02. Of 22.5 V half a
    /// volt may be lost: 1.25 ohm, as 1.159 at 20 °C, 47.9 m.
    /// </summary>
    [Theory]
    [InlineData("24 V", "250 m 1.5 mm2", "Lay a wire of 2.5 mm2 or thicker. A wire of 1.5 mm2 may be 191 m long.")]
    [InlineData("24 V", "700 m 1.5 mm2", "Lay a wire of 6 mm2 or thicker. A wire of 1.5 mm2 may be 191 m long.")]
    [InlineData("24 V", "4000 m 1.5 mm2", "Lay a wire of 35 mm2 or thicker. A wire of 1.5 mm2 may be 191 m long.")]
    [InlineData("24 V", "20000 m 1.5 mm2",
        "Shorten the wire, or lay a second conductor beside it: no single wire of up to 50 mm2 is enough. A wire of 1.5 mm2 may be 191 m long.")]
    [InlineData("24 V", "1500 m 1.5 mm2", "Lay a wire of 16 mm2 or thicker. A wire of 1.5 mm2 may be 191 m long.")]
    [InlineData("24 V", "500 ft 18 AWG", "Lay a wire of 16 AWG or thicker. A wire of 18 AWG may be 363 ft long.")]
    [InlineData("22.5 V", "60 m 1.5 mm2", "Lay a wire of 2.5 mm2 or thicker. A wire of 1.5 mm2 may be 47 m long.")]
    [InlineData("21 V", "60 m 1.5 mm2",
        "Use a valve that needs less, or a higher voltage: no wire is enough.")]
    public void The_wire_that_is_enough_is_named(string volts, string wire, string help)
    {
        string Site(string laid) =>
            $"{Head}controller box {{ power {{ transformer 40 VA at {volts} }} }}\n"
                + $"valve ac24 non-latching {{ inrush 400 mA; holding 220 mA; minimum-voltage 22 V }}\nzone far {{ output 1; valve ac24; wire {laid} }}\n"
                + "schedule s { on mon; start at 06:00; steps { water far for 10 min } }\n";

        Assert.Equal(help, Assert.Single(Lint.Of(Site(wire), "voltage-drop")).Help);
    }

    /// <summary>
    /// 24 V, 2200 µF, 20 ohm, 50 ms: through w ohm of wire the coil gets 24 · exp(−0.05 / (0.0022 · (20 + w))) · 20 / (20 + w) V; from 7.5 V on that does up to
    /// w = 10.01 ohm: 24.2 ohm/km out and back, at 40 °C 26.1, are 383 m. The set-up is common practice.
    /// </summary>
    [Fact]
    public void The_wire_of_a_latching_valve_is_named_too()
    {
        string Site(int length) =>
            $"{Head}controller box {{ power {{ capacitor 2200 uF at 24 V }} }}\nvalve click latching {{ pulse 50 ms; coil 20 ohm; minimum-voltage 7.5 V }}\n"
                + $"zone far {{ output 1; valve click; wire {length} m 1.5 mm2 }}\nschedule s {{ on mon; start at 06:00; steps {{ water far for 10 min }} }}\n";

        var help = Assert.Single(Lint.Of(Site(600), "voltage-drop")).Help;
        var longest = int.Parse(help.Split("may be ")[1].Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture);
        var wire = 2 * 12.1 * 1.0786 / 1000;

        Assert.Equal(383, longest);
        Assert.True(Volts(longest * wire) >= 7.5 && Volts((longest + 1) * wire) < 7.5, help);
        Assert.Empty(Lint.Of(Site(longest), "voltage-drop"));
        Assert.NotEmpty(Lint.Of(Site(longest + 1), "voltage-drop"));

        static double Volts(double wire) => 24 * Math.Exp(-0.05 / (2200e-6 * (20 + wire))) * 20 / (20 + wire);
    }

    private static string Valves(int count)
    {
        var zones = Enumerable.Range(1, count).Select(number => $"zone v{number} {{ output {number}; valve ac24; flow 1 L/min }}\n");
        var together = string.Join(" + ", Enumerable.Range(1, count).Select(number => $"v{number}"));
        return "valve ac24 non-latching { inrush 400 mA; holding 220 mA }\n"
            + $"{string.Concat(zones)}schedule s {{ on mon; start at 06:00; steps {{ water {together} for 10 min }} }}\n";
    }

    private static string LaidOut(string text) => Formatter.Format(SourceText.From("site.water", text), new FindingList())!.Text;

    private static string Fixed(Fix fix) => Assert.Single(FixSet.Apply([fix])).Value.Text;
}
