using WaterScript.Diagnostics;
using WaterScript.Linting.Fixes;
using Xunit;

namespace WaterScript.Tests.Linting.Rules.Water;

/// <summary>Fixes of what supplies, tanks and motors do not bear: they are tried or calculated, and applied they clear what they are proposed for.</summary>
public class HelpTests
{
    private const string Head = "site plot { timezone Etc/UTC; effective 2026-03-01 }\n";

    /// <summary>
    /// 2 L/min of 8: the herbs bring 3 (5 in all), the beds 6 (8), the lawn 20 (22). The beds are the least that is enough; where the supply gives 30, beds and
    /// lawn both fit.
    /// </summary>
    [Theory]
    [InlineData("flow 30 L/min; minimum-flow 8 L/min", "Water it together with beds, which makes 8.0 L/min, or")]
    [InlineData("flow 30 L/min; minimum-flow 9 L/min", "Water it together with lawn, which makes 22.0 L/min, or")]
    [InlineData("flow 21 L/min; minimum-flow 9 L/min", "Water it together with herbs, beds, which makes 11.0 L/min, or")]
    [InlineData("flow 21 L/min; minimum-flow 12 L/min", "None of its other zones, nor several, bring it to the minimum within what it gives:")]
    public void Zones_to_water_together_are_the_fewest_that_are_enough(string supply, string reported)
    {
        var finding = Assert.Single(Lint.Of(
            $$"""
            {{Head}}supply well { {{supply}} }
            zone pots  { output 1; flow 2 L/min }
            zone herbs { output 2; flow 3 L/min }
            zone beds  { output 3; flow 6 L/min }
            zone lawn  { output 4; flow 20 L/min }
            schedule s { on mon; start at 06:00; steps { water pots for 10 min } }
            schedule t { on tue; start at 06:00; steps { water lawn for 10 min } }
            """,
            "flow-under-minimum"));

        Assert.Equal($"{reported} give the supply a `bypass` or a `pressure-tank` with its pressures where there is one.", finding.Help);
    }

    /// <summary>20 L/min for 15 min and 10 L/min for 21 min are 300 + 210 = 510 L of 400: 78.4 %. On two days there are no more than 300.</summary>
    [Fact]
    public void Of_a_day_the_share_that_fits_is_calculated_and_other_days_are_tried()
    {
        var site = Daily("schedule two { on mon; start at 07:00; steps { water beds for 21 min } }");
        var finding = Assert.Single(Lint.Of(site, "daily-volume"));

        Assert.Equal("Cut the run times of that day to 78 %, or water two on tue instead, which clears it.", finding.Help);
        Assert.Equal(site.Replace("two { on mon", "two { on tue", StringComparison.Ordinal), Fixed(finding.Fix!));
        Assert.Empty(Lint.Of(Fixed(finding.Fix!), "daily-volume"));
    }

    /// <summary>Each waters on four days of the week, so that they meet on one, whichever is moved.</summary>
    [Fact]
    public void Where_no_other_days_fit_only_the_share_is_given()
    {
        var finding = Assert.Single(Lint.Of(
            Daily("schedule two { on mon, wed, fri, sun; start at 07:00; steps { water beds for 21 min } }")
                .Replace("one { on mon", "one { on mon, tue, thu, sat", StringComparison.Ordinal), "daily-volume"));

        Assert.Equal("Cut the run times of that day to 78 %, or spread the zones over more days.", finding.Help);
        Assert.Null(finding.Fix);
    }

    /// <summary>
    /// 1000 L at 20 out and 5 in last 66 min 40 s, which are 74.07 % of 90 min: 74 % are 66 min 36 s. In 90 min 1800 L are needed: (1800 − 1000) / 90 = 8.89
    /// L/min.
    /// </summary>
    [Fact]
    public void Of_a_tank_the_greatest_share_and_the_least_refill_are_given()
    {
        var finding = Assert.Single(Lint.Of(Tank("refill 5 L/min"), "tank-runs-dry"));

        Assert.Equal(
            "Water for 74 % of the time, or refill at 8.9 L/min or more.",
            finding.Help);
        Assert.Empty(Lint.Of(Tank("refill 8.9 L/min"), "tank-runs-dry"));
        Assert.NotEmpty(Lint.Of(Tank("refill 8.8 L/min"), "tank-runs-dry"));
        Assert.Empty(Lint.Of(Tank("refill 5 L/min", "scale 74 %"), "tank-runs-dry"));
        Assert.NotEmpty(Lint.Of(Tank("refill 5 L/min", "scale 75 %"), "tank-runs-dry"));
    }

    /// <summary>
    /// On Mondays and Thursdays the beds, on Mondays and Tuesdays the lawn: a day later the beds meet the lawn on Tuesday, two days later they do not.
    /// </summary>
    [Fact]
    public void All_days_of_a_schedule_are_moved()
    {
        var site = Daily("schedule two { on mon, thu; start at 07:00; steps { water beds for 21 min } }")
            .Replace("one { on mon", "one { on mon, tue", StringComparison.Ordinal);
        var finding = Assert.Single(Lint.Of(site, "daily-volume"));

        Assert.Equal("Cut the run times of that day to 78 %, or water two on wed, sat instead, which clears it.", finding.Help);
        Assert.Empty(Lint.Of(Fixed(finding.Fix!), "daily-volume"));
    }

    /// <summary>
    /// A named scale of 50 % makes 180 min of it 90, so the same 74 % are reported. An empty tank under its reserve is dry at any share, and with any refill.
    /// </summary>
    [Fact]
    public void A_share_is_one_of_the_run_times_as_they_are_scaled()
    {
        var scaled = Tank("refill 5 L/min", "scale half").Replace("90 min", "180 min", StringComparison.Ordinal)
            + "scale half { jan 50 %; feb 50 %; mar 50 %; apr 50 %; may 50 %; jun 50 %; jul 50 %; aug 50 %; sep 50 %; oct 50 %; nov 50 %; dec 50 % }\n";
        Assert.StartsWith("Water for 74 % of the time, or ", Assert.Single(Lint.Of(scaled, "tank-runs-dry")).Help, StringComparison.Ordinal);

        var dry = Tank("refill 5 L/min; contains 0 L on 2026-03-02; reserve 900 L").Replace("06:00", "00:00", StringComparison.Ordinal);
        Assert.Equal("Water less or less often, or give the tank more time to refill.", Assert.Single(Lint.Of(dry, "tank-runs-dry")).Help);
    }

    /// <summary>Every 8 min for 5 min: gaps of 3 min, 8 starts an hour. Staying on through 3 min, it starts once.</summary>
    [Theory]
    [InlineData("pressure-tank 24 L from 2 bar to 3.5 bar", "at most 6 starts an hour", "bridges gaps up to 3 min; at most 6 starts an hour")]
    [InlineData("bypass", "bridges gaps up to 30 s; at most 6 starts an hour", "bridges gaps up to 3 min; at most 6 starts an hour")]
    public void A_motor_is_left_on_through_the_least_gap_that_is_enough(string supply, string pump, string corrected)
    {
        var site = Motor(supply, pump, "every 8 min for 10 passes");
        var finding = Assert.Single(Lint.Of(site, "pump-starts"));

        Assert.Equal("Write `bridges gaps up to 3 min`, with which it starts no more than 6 times an hour, or water longer and less often.", finding.Help);
        Assert.Equal(site.Replace(pump, corrected, StringComparison.Ordinal), Fixed(finding.Fix!));
        Assert.Empty(Lint.Of(Fixed(finding.Fix!), "pump-starts"));
    }

    /// <summary>Every 8 min for 3 min: through the gaps of 5 min it would run longer for nothing than for the zone.</summary>
    [Fact]
    public void A_pump_does_not_run_longer_for_nothing_than_for_its_zones()
    {
        var site = Motor("bypass", "at most 6 starts an hour", "every 8 min for 10 passes").Replace("5 min } }", "3 min } }", StringComparison.Ordinal);
        var finding = Assert.Single(Lint.Of(site, "pump-starts"));

        Assert.Equal("Water longer and less often.", finding.Help);
        Assert.Null(finding.Fix);
    }

    [Fact]
    public void Without_a_pressure_tank_staying_on_is_no_fix()
    {
        var finding = Assert.Single(Lint.Of(Motor("", "at most 6 starts an hour", "every 8 min for 10 passes"), "pump-starts"));

        Assert.Equal(
            "Water longer and less often. Or give the supply a `bypass` or a `pressure-tank` with its pressures, and write `bridges gaps up to 3 min`, "
                + "with which it starts no more than 6 times an hour.",
            finding.Help);
        Assert.Null(finding.Fix);
    }

    /// <summary>
    /// Passes of every 4 min for 1 min leave gaps of 3 min, and hours with 15 starts; a second schedule opens another zone 2 min after each, so that the gaps
    /// are of 1 min and
    /// there are 30. Through 1 min all of that is one start.
    /// </summary>
    [Fact]
    public void The_least_of_several_gaps_is_taken()
    {
        var site = Motor("pressure-tank 24 L from 2 bar to 3.5 bar", "at most 15 starts an hour", "every 4 min for 40 passes")
            .Replace("5 min } }", "1 min } }", StringComparison.Ordinal)
            + "zone b { output 2; flow 5 L/min }\nschedule more { every day; start at 06:02; repeat every 4 min for 3 passes; steps { water b for 1 min } }\n";
        var finding = Assert.Single(Lint.Of(site, "pump-starts"));

        Assert.StartsWith("Write `bridges gaps up to 1 min`,", finding.Help, StringComparison.Ordinal);
        Assert.Empty(Lint.Of(Fixed(finding.Fix!), "pump-starts"));
    }

    /// <summary>Two schedules end at 06:10, and stop 25 + 25 of 60 L/min. A minute later is enough.</summary>
    [Fact]
    public void A_start_a_minute_later_keeps_two_schedules_from_stopping_at_once()
    {
        var finding = Assert.Single(Lint.Of(
            Stopping("", "", "schedule one { on mon; start at 06:00; steps { water a for 10 min } }\n"
                + "schedule two { on mon; start at 06:05; steps { water b for 5 min } }\n"), "water-hammer"));

        Assert.Equal("Start two at 06:06, which clears it.", finding.Help);
        Assert.Empty(Lint.Of(Fixed(finding.Fix!), "water-hammer"));
    }

    [Fact]
    public void Latching_valves_close_one_by_one_with_a_stagger()
    {
        var finding = Assert.Single(Lint.Of(
            Stopping("; valve click", "controller box { outputs 4; power { capacitor 47000 uF at 24 V } }\nvalve click latching { pulse 50 ms }\n",
                "schedule s { on mon; start at 06:00; steps { water a + b for 10 min } }\n"), "water-hammer"));

        Assert.Equal("Write `stagger 1000 ms` in controller box: its valves then close one by one, which clears it.", finding.Help);
        Assert.Empty(Lint.Of(Fixed(finding.Fix!), "water-hammer"));
    }

    /// <summary>Valves that are held open all close when they are due, whatever the stagger.</summary>
    [Fact]
    public void One_step_is_watered_one_after_the_other()
    {
        var finding = Assert.Single(Lint.Of(Stopping("", "controller box { outputs 4 }\n",
            "schedule s { on mon; start at 06:00; steps { water a + b for 10 min } }\n"), "water-hammer"));

        Assert.Equal("Water them one after the other, or let one of them run a few seconds longer than the other.", finding.Help);
        Assert.Empty(Lint.Of(Fixed(finding.Fix!), "water-hammer"));
    }

    private static string Daily(string more) =>
        $$"""
        {{Head}}supply well { flow 30 L/min; daily 400 L }
        zone lawn { output 1; flow 20 L/min }
        zone beds { output 2; flow 10 L/min }
        schedule one { on mon; start at 06:00; steps { water lawn for 15 min } }
        {{more}}
        """;

    private static string Tank(string refill, string scale = "") =>
        $$"""
        {{Head}}supply butt { flow 20 L/min; tank 1000 L; {{refill}} }
        zone lawn { output 1; flow 20 L/min }
        schedule morning { {{(scale.Length > 0 ? $"{scale}; " : "")}}on mon; start at 06:00; steps { water lawn for 90 min } }

        """;

    private static string Motor(string supply, string pump, string repeat) =>
        $$"""
        {{Head}}supply well { flow 20 L/min; {{supply}} }
        zone a { output 1; flow 5 L/min }
        pump lift { output 8; supply well; load 60 mA; {{pump}} }
        schedule mist { every day; start at 06:00; repeat {{repeat}}; steps { water a for 5 min } }

        """;

    private static string Stopping(string valve, string controller, string schedules) =>
        $$"""
        {{Head}}supply main { flow 60 L/min }
        {{controller}}zone a { output 1; flow 25 L/min{{valve}} }
        zone b { output 2; flow 25 L/min{{valve}} }
        {{schedules}}
        """;

    private static string Fixed(Fix fix) => Assert.Single(FixSet.Apply([fix])).Value.Text;
}
