using System.Globalization;
using NodaTime;
using WaterScript.Answers.Usage;
using WaterScript.Model;
using WaterScript.Tests.Simulation;
using WaterScript.Text;
using WaterScript.Text.Lines;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Answers.Usage;

/// <summary>What people read of the water used, worked out by hand.</summary>
public sealed class UsageTextTests
{
    /// <summary>
    /// A watering of 10 min at 10 L/min is 100 L, on 60 m2 1.7 mm; on 30 days of April 3000 L. Before midnight on 30 April it is 5 min, 50 L, and as much
    /// on 1 May.
    /// </summary>
    private const string Night = """
        site night { timezone Europe/Lisbon; effective 2026-04-30 }
        zone lawn "Lawn" { output 1; flow 10 L/min; area 60 m2 }
        zone beds { output 2 }
        schedule s { on thu; start at 23:55; steps { water lawn for 10 min } }
        """;

    private static readonly string Many = string.Join('\n', Enumerable.Range(1, 12).Select(number => string.Create(CultureInfo.InvariantCulture,
        $"zone bed-{number} {{ output {number}; flow {number} L/min }}"))) + """

        site many { timezone UTC; effective 2026-01-01 }
        schedule s { every day; start at 06:00; steps { water all for 1 min } }
        """;

    private static Site Read(string text) => RandomRunsTests.Read(text, out var errors) ?? throw new InvalidOperationException(errors);

    private static string[] Lines(string text, LocalDate from, LocalDate until, UsageAxis[] by, int? columns = null, bool showsAll = false)
    {
        var usage = WaterUsage.Of(Read(text), new Horizon(from, until), [.. by]);
        var output = new StringWriter(CultureInfo.InvariantCulture);
        UsageText.Write(usage, showsAll, columns, new PlainLines(output));
        return output.ToString().Split('\n');
    }

    /// <summary>By hand: with a minute before and one after, the pump is on for 12 min on each of five days; 1.5 kW for an hour.</summary>
    [Fact]
    public void The_energy_of_a_motor_is_its_power_times_the_time_it_is_on()
    {
        var lines = Lines("""
            site plot { timezone UTC; effective 2026-05-01 }
            zone lawn { output 1; flow 10 L/min }
            pump lift { output 2; zones lawn; motor 1.5 kW; starts 60 s before zones; stops 60 s after zones }
            pump boost { output 3; zones lawn }
            schedule s { every day; start at 06:00; steps { water lawn for 10 min } }
            """, new LocalDate(2026, 5, 1), new LocalDate(2026, 5, 6), [UsageAxis.Zone]);
        Assert.Contains(lines, line => line.StartsWith("Pump lift: on 1.0 h, 5 times, 1.5 kWh. Pump boost: on 0.8 h, 5 times. ", StringComparison.Ordinal));
    }

    [Fact]
    public void A_watering_over_midnight_is_split_there_and_opens_once() => Assert.Equal(
        [
            "night, 30 Apr (effective) to 2 May 2026, L by day and zone.",
            "day              Lawn  beds  Total",
            "Thu 30 Apr 2026    50     0     50",
            "Fri 1 May          50     0     50",
            "Total             100     0    100",
            "mm                  2     0",
            "Valves: 1 opening.",
            "",
        ],
        Lines(Night, new LocalDate(2026, 4, 30), new LocalDate(2026, 5, 3), [UsageAxis.Day, UsageAxis.Zone]));

    /// <summary>
    /// By hand: 10 mA at 12 V are 2.88 Wh a day, 250 mA for 30 min 1.5 Wh; 30 of 60 Wh last six days of 4.38 Wh. From the third day to the fifth 13.14 Wh are
    /// drawn, and 60 − 5 · 4.38 are left.
    /// </summary>
    [Fact]
    public void A_battery_is_followed_from_the_first_date_of_the_site()
    {
        const string bench = """
            site bench { timezone Europe/Lisbon; effective 2026-03-01 }
            controller box "Box" { power { battery 5 Ah at 12 V; standby 10 mA } }
            valve hold non-latching { holding 250 mA }
            zone lawn { output 1; flow 2 L/min; valve hold }
            schedule s { every day; start at 06:00; steps { water lawn for 30 min } }
            """;
        Assert.Contains("Battery of Box: 60.0 Wh when full, 13.1 Wh drawn, at the lowest 38.1 Wh on Thu 5 Mar 2026.",
            Lines(bench, new LocalDate(2026, 3, 3), new LocalDate(2026, 3, 6), [UsageAxis.Zone]));
        Assert.Contains("Battery of Box: 60.0 Wh when full, 87.6 Wh drawn, at the lowest 0.0 Wh on Sat 14 Mar 2026. "
            + "It lasts 6 days without sun; means hide dull weeks.",
            string.Join(' ', Lines(bench, new LocalDate(2026, 3, 1), new LocalDate(2026, 3, 21), [UsageAxis.Zone]).Select(line => line.Trim())),
            StringComparison.Ordinal);
    }

    [Fact]
    public void The_depth_of_a_zone_is_its_litres_over_its_area() => Assert.Contains("Lawn   100   2    0.2         1",
        Lines(Night, new LocalDate(2026, 4, 30), new LocalDate(2026, 5, 3), [UsageAxis.Zone]));

    /// <summary>The dates are cut, not the passes: of the watering over midnight the second date has its half alone, and no opening.</summary>
    [Fact]
    public void The_first_date_has_what_is_under_way_at_its_beginning()
    {
        var usage = WaterUsage.Of(Read(Night), new Horizon(new LocalDate(2026, 5, 1), new LocalDate(2026, 5, 2)), [UsageAxis.Zone]);
        var row = Assert.Single(usage.Rows);
        Assert.Equal((300, 0), (row.Seconds, row.Openings));
    }

    /// <summary>At 10 L/min 1000 m3 take 100 000 min.</summary>
    [Fact]
    public void Much_water_is_in_cubic_metres() => Assert.StartsWith("big, 2027, m3 by year.", Lines(
        """
        site big { timezone UTC; effective 2026-01-01 }
        zone lawn { output 1; flow 100 L/min }
        schedule s { every day; start at 06:00; steps { water lawn for 30 min } }
        """,
        new LocalDate(2027, 1, 1), new LocalDate(2028, 1, 1), [UsageAxis.Year])[0], StringComparison.Ordinal);

    [Fact]
    public void Gallons_and_inches_are_said_where_the_file_counts_so()
    {
        var lines = Lines(
            """
            site yard { timezone UTC; effective 2026-01-01 }
            zone lawn { output 1; flow 10 gpm; area 400 ft2 }
            schedule s { every day; start at 06:00; steps { water lawn for 10 min } }
            """,
            new LocalDate(2026, 1, 1), new LocalDate(2026, 2, 1), [UsageAxis.Month, UsageAxis.Zone]);
        // 31 times 100 gal; 3100 gal of 231 in3 on 400 ft2 of 144 in2 are 12.4 in.
        Assert.Equal("yard, 1 Jan (effective) to 31 Jan 2026, gal by month and zone.", lines[0]);
        Assert.Contains("Jan 2026  3100   3100", lines);
        Assert.Contains("in        12.4", lines);
    }

    [Fact]
    public void A_zone_without_flow_has_a_dash_and_what_it_is_a_part_of_is_at_least_that()
    {
        var lines = Lines(Night.Replace("water lawn", "water lawn + beds", StringComparison.Ordinal),
            new LocalDate(2026, 4, 30), new LocalDate(2026, 5, 3), [UsageAxis.Month, UsageAxis.Zone]);
        Assert.Contains("At least   100     –       100", lines);
        Assert.Contains("Not counted: beds has no flow (site.water:3); add flow to zone beds.", lines);
    }

    /// <summary>12 zones of 1 to 12 L a day: the first eight have 36 L, the others 42.</summary>
    [Fact]
    public void After_the_eighth_zone_the_others_are_added_up()
    {
        var lines = Lines(Many, new LocalDate(2026, 1, 1), new LocalDate(2026, 1, 2), [UsageAxis.Zone]);
        Assert.Contains(lines, line => line.StartsWith("others (4)  42 ", StringComparison.Ordinal));
        Assert.DoesNotContain(Lines(Many, new LocalDate(2026, 1, 1), new LocalDate(2026, 1, 2), [UsageAxis.Zone], showsAll: true),
            line => line.StartsWith("others", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(200)]
    [InlineData(80)]
    [InlineData(61)]
    [InlineData(59)]
    [InlineData(40)]
    [InlineData(30)]
    public void No_line_is_wider_than_the_terminal(int columns)
    {
        foreach (var by in (UsageAxis[][])[[UsageAxis.Month, UsageAxis.Zone], [UsageAxis.Zone, UsageAxis.Month], [UsageAxis.Zone], [UsageAxis.Week]])
        {
            var lines = Lines(Many, new LocalDate(2026, 1, 1), new LocalDate(2027, 1, 1), by, columns, showsAll: true);
            Assert.All(lines, line => Assert.InRange(DisplayLine.Of(line).Width, 0, columns));
        }
    }

    [Fact]
    public void Under_sixty_columns_an_entry_has_a_line_and_under_forty_a_sentence()
    {
        var (from, until) = (new LocalDate(2026, 4, 30), new LocalDate(2026, 6, 1));
        Assert.Contains("Total  500 L", Lines(Night, from, until, [UsageAxis.Month, UsageAxis.Zone], 50));
        Assert.Contains("Total: 500 L.", Lines(Night, from, until, [UsageAxis.Month, UsageAxis.Zone], 39));
    }

    [Fact]
    public void A_gap_is_named() => Assert.StartsWith("gap, 2027, L by month. No water in Jan to May, Jul, Sep to Dec.", Lines(
        """
        site gap { timezone UTC; effective 2026-01-01 }
        zone lawn { output 1; flow 100 L/min }
        schedule a { every day; from 1 jun to 30 jun; start at 06:00; steps { water lawn for 1 min } }
        schedule b { every day; from 1 aug to 31 aug; start at 06:00; steps { water lawn for 1 min } }
        """,
        new LocalDate(2027, 1, 1), new LocalDate(2028, 1, 1), [UsageAxis.Month])[0], StringComparison.Ordinal);

    /// <summary>Two schedules from 06:00 for 10 min and from 06:05 for 10 min: the zone is open for 15 min, of which the second has 5.</summary>
    [Fact]
    public void A_zone_that_two_schedules_water_at_once_is_open_once()
    {
        var usage = WaterUsage.Of(
            Read("""
                site twice { timezone UTC; effective 2026-01-01 }
                zone lawn { output 1; flow 10 L/min }
                schedule a { every day; start at 06:00; steps { water lawn for 10 min } }
                schedule b { every day; start at 06:05; steps { water lawn for 10 min } }
                """),
            Horizon.DaysFrom(new LocalDate(2026, 1, 1), 1), [UsageAxis.Schedule]);
        Assert.Equal([600, 300], usage.Rows.Select(row => row.Seconds));
    }
}
