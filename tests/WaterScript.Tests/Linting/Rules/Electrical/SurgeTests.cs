using System.Globalization;
using Xunit;

namespace WaterScript.Tests.Linting.Rules.Electrical;

/// <summary>What is drawn together millisecond by millisecond, from the times at which outputs are switched and from the data sheets alone.</summary>
public class SurgeTests
{
    private const int Pulse = 50;

    /// <summary>A pump of 0.3 A, and 2.4 A while it starts, opens first; three valves of 0.2 A, and 0.5 A for a moment, follow at the stagger.</summary>
    [Theory]
    [InlineData(100, 1_000)]
    [InlineData(300, 500)]
    [InlineData(300, 900)]
    [InlineData(300, 901)]
    [InlineData(600, 600)]
    [InlineData(600, 601)]
    [InlineData(1_000, 100)]
    public void A_motor_that_starts_draws_until_it_runs(int stagger, int length)
    {
        var most = 0.0;
        for (var now = 0; now <= 3 * stagger; now++)
        {
            var pump = now < length ? 2.4 : 0.3;
            var opens = now > 0 && now % stagger == 0;
            var open = (now - 1) / stagger;
            var valves = now == 0 ? 0 : (opens ? now / stagger - 1 : open) * 0.2 + (opens ? 0.5 : 0);
            if (now == 0 || opens) most = Math.Max(most, pump + valves);
        }

        Assert.Empty(Lint.Of(Starting(stagger, length, most), "inrush-current"));
        var found = Assert.Single(Lint.Of(Starting(stagger, length, most - 0.01), "inrush-current"));
        Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"need {most * 1000:0} mA,"), found.Heading, StringComparison.Ordinal);
    }

    /// <summary>The valve closes by a pulse of 12 V / 24 ohm = 0.5 A, beside a pump that stops later or earlier.</summary>
    [Theory]
    [InlineData("after", 600, 1.1)]
    [InlineData("before", 600, 0.6)]
    [InlineData("before", 400, 0.5)]
    public void A_pulse_that_closes_draws_as_one_that_opens(string side, int load, double most)
    {
        string Site(double peak) => string.Create(CultureInfo.InvariantCulture,
            $$"""
            site plot { timezone Etc/UTC; effective 2026-03-01 }
            supply well { flow 20 L/min }
            controller box { outputs 2; power { continuous 10 mA at 12 V; peak {{peak * 1000:0}} mA } }
            valve click latching { pulse 40 ms; coil 24 ohm }
            zone a { output 1; valve click; flow 8 L/min }
            pump lift { output 2; supply well; load {{load}} mA; starts 2 s after zones; stops 2 s {{side}} zones }
            schedule morning { every day; start at 06:00; steps { water a for 14 min } }
            """);

        Assert.Empty(Lint.Of(Site(most), "inrush-current"));
        Assert.Single(Lint.Of(Site(most - 0.01), "inrush-current"));
    }

    /// <summary>
    /// A capacitor of 10000 uF at 24 V gives a pulse of 50 ms to 6 ohm and is recharged with so many watts from 5 V, while a relay of 0.3 A is on. Energy in
    /// steps of 1 ms says for how long; less than a second is left to the peak.
    /// </summary>
    [Theory]
    [InlineData(0.5)]
    [InlineData(1.0)]
    [InlineData(2.0)]
    [InlineData(3.0)]
    public void A_recharge_draws_beside_what_is_on(double watts)
    {
        var volts = 24.0;
        for (var now = 0; now < Pulse * 1000; now++) volts -= volts / 6 / 0.010 * 1e-6;
        var milliseconds = Pulse;
        for (var energy = 0.010 * volts * volts / 2; energy < 0.010 * 24 * 24 / 2; energy += watts / 1000) milliseconds++;
        var most = 0.3 + (watts / 5);

        Assert.Equal(milliseconds >= 1000 ? 1 : 0, Lint.Of(Recharging(watts, most - 0.001, peak: 9), "holding-current").Length);
        Assert.Empty(Lint.Of(Recharging(watts, most, peak: 9), "holding-current"));
        Assert.Single(Lint.Of(Recharging(watts, 0.31, peak: most - 0.001), "inrush-current"));
        Assert.Empty(Lint.Of(Recharging(watts, 0.31, peak: most), "inrush-current"));
    }

    private static string Starting(int stagger, int length, double peak) => string.Create(CultureInfo.InvariantCulture,
        $$"""
        site plot { timezone Etc/UTC; effective 2026-03-01 }
        supply well { flow 40 L/min }
        controller box { outputs 4; stagger {{stagger}} ms; power { continuous 1 A at 24 V; peak {{peak * 1000:0}} mA } }
        valve dc24 non-latching { inrush 500 mA; holding 200 mA }
        zone a { output 2; valve dc24; flow 8 L/min }
        zone b { output 3; valve dc24; flow 8 L/min }
        zone c { output 4; valve dc24; flow 8 L/min }
        pump lift { output 1; supply well; load 300 mA; inrush 2.4 A for {{length}} ms }
        schedule morning { every day; start at 06:00; steps { water a + b + c for 14 min } }
        """);

    private static string Recharging(double watts, double continuous, double peak) => string.Create(CultureInfo.InvariantCulture,
        $$"""
        site plot { timezone Etc/UTC; effective 2026-03-01 }
        supply well { flow 40 L/min }
        controller box {
          outputs 2
          power { continuous {{continuous * 1000:0}} mA at 5 V; peak {{peak * 1000:0}} mA; capacitor 10000 uF at 24 V; recharge {{watts}} W }
        }
        valve click latching { pulse {{Pulse}} ms; coil 6 ohm }
        zone a { output 1; valve click; flow 8 L/min }
        pump lift { output 2; supply well; load 300 mA; starts 10 s before zones; stops 10 s after zones }
        schedule morning { every day; start at 06:00; steps { water a for 14 min } }
        """);
}
