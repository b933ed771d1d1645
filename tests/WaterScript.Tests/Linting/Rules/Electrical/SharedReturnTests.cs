using System.Globalization;
using System.Text.RegularExpressions;
using WaterScript.Diagnostics;
using Xunit;

namespace WaterScript.Tests.Linting.Rules.Electrical;

/// <summary>Returns that valves share, worked out piece by piece along the wire.</summary>
public class SharedReturnTests
{
    /// <summary>Ω/m of 1.5 mm² at 40 °C: 12.1 Ω/km (IEC 60228:2004), and 0.393 % more with each kelvin (IEC 60028).</summary>
    private const double OhmsPerMetre = 0.0121 * 1.0786;

    /// <summary>
    /// The wires to three valves, which open one after the other. The last one gets what its own current leaves on the way there, and the currents of all on
    /// each metre of the way back that they have in common.
    /// </summary>
    [Theory]
    [InlineData(60, 200, 250)]
    [InlineData(100, 100, 100)]
    [InlineData(300, 20, 150)]
    public void Each_metre_of_the_return_takes_what_all_that_share_it_draw(int first, int second, int last)
    {
        var volts = 24 - (last * OhmsPerMetre * 0.40);
        for (var metre = 0; metre < last; metre++)
        {
            var amperes = 0.40 + (metre < first ? 0.22 : 0) + (metre < second ? 0.22 : 0);
            volts -= amperes * OhmsPerMetre;
        }

        Assert.DoesNotContain(Lint.Of(Site(first, second, last, volts - 0.0005), "voltage-drop"), IsOfLast);
        var found = Assert.Single(Lint.Of(Site(first, second, last, volts + 0.0005), "voltage-drop"), IsOfLast);
        Assert.Contains(FormattableString.Invariant($"; {volts:0.##} V are left."), Rounded(found.Details), StringComparison.Ordinal);
    }

    private static bool IsOfLast(Finding finding) => finding.Heading.Contains("zone c ", StringComparison.Ordinal);

    /// <summary>With what is left to a hundredth.</summary>
    private static string Rounded(string details) =>
        Regex.Replace(details, @"[\d.]+(?= V are left)", left => $"{double.Parse(left.Value, CultureInfo.InvariantCulture):0.##}");

    /// <summary>Together at one instant all draw their inrush: 3 · 0.40 A on 100 m back, 0.40 A out.</summary>
    [Fact]
    public void At_one_instant_all_draw_their_inrush()
    {
        var volts = 24 - (100 * OhmsPerMetre * (0.40 + 1.20));
        var site = Site(100, 100, 100, volts + 0.0005).Replace("stagger 500 ms; ", "", StringComparison.Ordinal);

        Assert.Equal(3, Lint.Of(site, "voltage-drop").Length);
        Assert.Empty(Lint.Of(Site(100, 100, 100, volts + 0.0005), "voltage-drop"));
    }

    private static string Site(int first, int second, int last, double minimum) => FormattableString.Invariant(
        $$"""
        site plot { timezone Etc/UTC; effective 2026-03-01 }
        controller box { outputs 3; stagger 500 ms; power { transformer 100 VA at 24 V } }
        valve ac24 non-latching { inrush 400 mA; holding 220 mA; minimum-voltage {{minimum:0.0000}} V }
        zone a { output 1; valve ac24; wire {{first}} m 1.5 mm2 shared-return }
        zone b { output 2; valve ac24; wire {{second}} m 1.5 mm2 shared-return }
        zone c { output 3; valve ac24; wire {{last}} m 1.5 mm2 shared-return }
        schedule morning { every day; start at 06:00; steps { water a + b + c for 10 min } }
        """);
}
