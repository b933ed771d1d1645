using NodaTime;
using NodaTime.Text;
using WaterScript.Calendars;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Electrical;
using WaterScript.Tests.Timetables;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;
using Xunit;

namespace WaterScript.Tests.Simulation;

/// <summary>The charge of a battery, against a calculation second by second that knows only the switchings, and by hand.</summary>
public class BatteryTests
{
    private const int Days = 20;

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, Samples.Of(100))];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void It_is_that_of_a_calculation_second_by_second(int seed)
    {
        var text = RandomBench.Of(seed);
        var site = Sites.Read(text);
        var horizon = Horizon.DaysFrom(site.Effective, Days);
        var charge = Followed(site, horizon);
        var judge = new BatteryBySeconds(site, horizon, charge.Yield);
        var joules = (double)charge.Full;

        Assert.Equal(judge.Charge, (double)charge.Charge, tolerance: 1e-6 * joules);
        Assert.Equal(judge.Least, (double)charge.Least, tolerance: 1e-6 * joules);
        Assert.Equal(judge.Drawn, (double)charge.Drawn, tolerance: 1e-6 * joules);
        Assert.Equal(judge.Brought, (double)charge.Brought, tolerance: 1e-6 * joules);
        Assert.Equal(judge.FlatDays, charge.Days.Where(day => day.IsFlat).Select(day => day.Day));
        if (charge.Flat.Happened) Assert.InRange(charge.Flat.First, judge.FirstFlat - 1, judge.FirstFlat + 1);
        Assert.Equal(Days, charge.Days.Count);
        Assert.Equal(charge.Drawn, charge.Days.Sum(day => day.Drawn), 6);
        Assert.Equal(charge.Brought, charge.Days.Sum(day => day.Brought), 6);
        // What is drawn and brought is all accounted for.
        Assert.Equal(charge.Full + charge.Brought + charge.Renewed + charge.Missing - charge.Drawn - charge.Overflow, charge.Charge, 6);
    }

    [Fact]
    public void The_random_sites_run_flat_and_overflow()
    {
        var all = Enumerable.Range(1, 40).Select(seed => Sites.Read(RandomBench.Of(seed)))
            .Select(site => Followed(site, Horizon.DaysFrom(site.Effective, Days))).ToList();
        Assert.InRange(all.Count(charge => charge.Flat.Happened), 5, 35);
        Assert.InRange(all.Count(charge => charge.Overflow > 0), 5, 35);
        Assert.Contains(all, charge => charge.Missing > 0);
        Assert.Contains(all, charge => charge.Renewed > 0);
    }

    /// <summary>
    /// By hand: 10 mA at 12 V are 0.12 W, 2.88 Wh a day. A zone holds 250 mA for 30 min: 1.5 Wh. 4.38 Wh a day of 60 Wh, of which 30 may be used, are flat on
    /// the seventh day: after six days 26.28, with the 6 h 00 of the seventh 0.72 Wh more; 3 Wh are left for 0.12 + 3 W from 06:00 on, which are 57 min 42 s:
    /// more than the half hour, so 1.44 Wh last 12 h from 06:30 on.
    /// </summary>
    [Fact]
    public void It_runs_flat_when_it_does_by_hand()
    {
        var charge = Followed("""
            controller box { power { battery 5 Ah at 12 V; standby 10 mA } }
            valve hold non-latching { holding 250 mA }
            zone lawn { output 1; valve hold }
            schedule morning { every day; start at 06:00; steps { water lawn for 30 min } }
            """);
        Assert.Equal(new LocalDateTime(2026, 3, 7, 18, 30), ClockOf(charge.Flat.First));
        Assert.Equal(4.38m * 3600, charge.Days[0].Drawn);
        Assert.Equal(30m * 3600, charge.Flat.Worst); // after 14 days it is empty
    }

    /// <summary>By hand: half of 1 Ah at 12 V are 21,600 J; 7 mA at 12 V are 0.084 W, which take 257,142.86 s: in the second 257,142 it falls below.</summary>
    [Fact]
    public void It_is_flat_from_the_second_within_which_it_falls_below()
    {
        var charge = Followed("controller box { power { battery 1 Ah at 12 V; standby 7 mA } }\n" + OneZone);
        Assert.Equal(new LocalDateTime(2026, 3, 1, 0, 0).PlusSeconds(257_142), ClockOf(charge.Flat.First));
    }

    /// <summary>The same on dates around the one that days are counted from.</summary>
    [Theory]
    [InlineData("1969-12-30")]
    [InlineData("1970-01-01")]
    public void Day_number_0_is_a_day_like_any_other(string effective)
    {
        var charge = FollowedFrom(effective, "39.6 N 8.1 W", "mar 9 C to 18 C", "battery 1 Ah at 12 V; standby 7 mA");
        var first = CivilDate.DayNumberOf(LocalDatePattern.Iso.Parse(effective).Value);
        Assert.Equal(Enumerable.Range(first, Days), charge.Days.Select(day => day.Day));
        Assert.Equal(((first * 86_400L) + 257_142, 21_600m), (charge.Flat.First, charge.Flat.Worst));
    }

    /// <summary>By hand: a controller that has a power supply of its own holds its valve with that, and the battery gives only 0.12 W for a day.</summary>
    [Fact]
    public void What_another_controller_switches_takes_nothing()
    {
        var charge = Followed("""
            controller box { outputs 2; power { battery 5 Ah at 12 V; standby 10 mA } }
            controller wall { outputs 2; power { continuous 2 A at 12 V } }
            valve hold non-latching { holding 250 mA }
            zone lawn { output 1 of wall; valve hold }
            schedule morning { every day; start at 06:00; steps { water lawn for 30 min } }
            """);
        Assert.Equal(0.12m * 86_400, charge.Days[0].Drawn);
    }

    /// <summary>
    /// On the equator at the equinox the sun is up for 12 h 7 min. At 180° its noon is at 00:00 UTC: on 20 March it sets at about 06:11 and rises again at
    /// about 18:04, and in the 11 h 53 min between 0.12 W take 5,134 J.
    /// </summary>
    [Fact]
    public void The_sun_of_a_date_may_set_on_the_next()
    {
        var charge = FollowedFrom("2026-03-20", "0 N 180 W", "mar 15 C to 30 C", "battery 5 Ah at 12 V; standby 10 mA; solar-panel 10 W");
        var first = charge.Days[0];
        Assert.InRange(charge.Full - first.Least, 5_134 * 0.99m, 5_134 * 1.01m);
    }

    /// <summary>At 78° the sun neither rises nor sets in June and July: all hours of each date have the same share of what its month brings.</summary>
    [Fact]
    public void Where_the_sun_does_not_set_a_date_has_all_of_its_own()
    {
        var charge = FollowedFrom("2026-06-25", "78.2 N 15.6 E", "jun 0 C to 5 C; jul 3 C to 12 C", "battery 5 Ah at 12 V; standby 10 mA; solar-panel 1 W");
        var (june, july) = (charge.Yield!.JoulesADay[5]!.Value, charge.Yield.JoulesADay[6]!.Value);
        Assert.NotEqual(june, july, 0);
        Assert.Equal([june, july], charge.Days.Skip(5).Take(2).Select(day => Math.Round(day.Brought, 6)));
    }

    /// <summary>
    /// By hand: 4700 uF from 24 V through 20 ohm for 50 ms: U1 = 24 · exp(−0.05 / 0.094) = 14.0995 V; 0.5 · 0.0047 · (576 − 198.796) / 0.8 = 1.10803 J.
    /// </summary>
    [Fact]
    public void A_pulse_takes_what_its_capacitor_is_charged_with()
    {
        var charge = Followed("""
            controller box { power { battery 5 Ah at 12 V; capacitor 4700 uF at 24 V; recharge 2 W efficiency 80 % } }
            valve click latching { pulse 50 ms; coil 20 ohm }
            zone lawn { output 1; valve click }
            schedule morning { every day; start at 06:00; steps { water lawn for 30 min } }
            """);
        Assert.Equal(2 * 1.10803, (double)charge.Days[0].Drawn, tolerance: 0.0001);
    }

    /// <summary>By hand: 12² / 8 = 18 W for 50 ms are 0.9 J, twice a day; 12² / 14.4 = 10 W for 100 ms are 1 J.</summary>
    [Theory]
    [InlineData("pulse 50 ms; coil 8 ohm", 1.8)]
    [InlineData("pulse 100 ms; coil 14.4 ohm", 2.0)]
    public void Without_a_capacitor_a_pulse_takes_what_its_coil_does(string pulse, double joules)
    {
        var charge = Followed($$"""
            controller box { power { battery 5 Ah at 12 V } }
            valve click latching { {{pulse}} }
            zone lawn { output 1; valve click }
            schedule morning { every day; start at 06:00; steps { water lawn for 30 min } }
            """);
        Assert.Equal((decimal)joules, charge.Days[0].Drawn);
    }

    /// <summary>At 5 °C, 20 degrees below 25, a loss of 1 % each leaves 80 % of the half that may be used: 36 of 60 Wh stay.</summary>
    [Fact]
    public void Cold_takes_of_what_may_be_used()
    {
        var site = Sites.Read(Bench + "climate { jan 5 C to 12 C }\ncontroller box { power { battery 5 Ah at 12 V; cold-loss 1 % per C } }\n" + OneZone);
        var battery = site.Controllers[0].Power!.Battery!;
        Assert.Equal(36m * 3600, BatteryCharge.KeptIn(battery, site.Climate, 1));
        Assert.Equal(30m * 3600, BatteryCharge.KeptIn(battery, site.Climate, 2));
        var frozen = battery with { ColdLossPercent = new(10, battery.Origin) };
        Assert.Equal(60m * 3600, BatteryCharge.KeptIn(frozen, site.Climate, 1));
    }

    /// <summary>29 February is 1 March in a common year; a last day is that of each year.</summary>
    [Theory]
    [InlineData("29 feb", 2027, 3, 1)]
    [InlineData("29 feb", 2028, 2, 29)]
    [InlineData("last feb", 2027, 2, 28)]
    [InlineData("1 apr", 2027, 4, 1)]
    [InlineData("2027-05-09", 2027, 5, 9)]
    public void It_is_full_on_the_dates_on_which_it_is_renewed(string date, int year, int month, int day)
    {
        var site = Sites.Read($"site s {{ timezone Europe/Lisbon; effective {year}-01-10 }}\n"
            + $"controller box {{ power {{ battery 500 Ah at 12 V; standby 30 mA; renewed on {date} }} }}\n{OneZone}");
        var charge = Followed(site, Horizon.DaysFrom(site.Effective, 200));
        var before = charge.Days.Single(each => each.Day == CivilDate.DayNumberOf(new LocalDate(year, month, day)) - 1);
        var on = charge.Days.Single(each => each.Day == CivilDate.DayNumberOf(new LocalDate(year, month, day)));
        Assert.True(on.Least > before.Least);
        Assert.Equal(1, Enumerable.Range(1, charge.Days.Count - 1).Count(index => charge.Days[index].Least > charge.Days[index - 1].Least));
    }

    private const string Bench = "site bench { timezone Europe/Lisbon; effective 2026-03-01; location 39.6 N 8.1 W 310 m }\n";

    private const string OneZone = "zone lawn { output 1 }\nschedule morning { every day; start at 06:00; steps { water lawn for 30 min } }\n";

    private static LocalDateTime ClockOf(long instant) =>
        Instant.FromUnixTimeSeconds(instant).InZone(DateTimeZoneProviders.Tzdb["Europe/Lisbon"]).LocalDateTime;

    /// <summary>60 % arrive where no efficiency is given, which is documented.</summary>
    [Fact]
    public void Of_a_panel_without_an_efficiency_60_percent_arrive()
    {
        string[] panels = ["solar-panel 10 W", "solar-panel 10 W efficiency 60 %"];
        var (without, with) = (Yield(panels[0]), Yield(panels[1]));
        Assert.True(with > 0);
        Assert.Equal(with, without);
        static decimal Yield(string panel) =>
            FollowedFrom("2026-03-01", "39.6 N 8.1 W", "mar 9 C to 18 C", $"battery 5 Ah at 12 V; {panel}").Yield!.JoulesADay[2]!.Value;
    }

    /// <summary>
    /// Rio de Janeiro in May: 14.5 MJ/m² a day (FAO Irrigation and Drainage Paper 56, 1998, example 10; temperatures of example 11), so that 10 W of a
    /// flat panel bring 10 · 14.5 / 3.6 = 40.28 Wh. In a month the yield is a whole number of ten-thousandths of a watt-hour.
    /// </summary>
    [Fact]
    public void A_flat_panel_brings_what_shines_on_the_ground()
    {
        const string Climate = "may 19.1 C to 25.1 C, sun 7.1 h/day";
        var charge = FollowedFrom("2026-05-01", "22.9 S 43.2 W", Climate, "battery 5 Ah at 12 V; solar-panel 10 W efficiency 100 %");
        var joules = charge.Yield!.JoulesADay[4]!.Value;
        Assert.InRange(joules / 3600, 40.28m * 0.99m, 40.28m * 1.01m);
        Assert.Equal(0, joules / 3600 % 0.0001m);
    }

    /// <summary>At 50.5 N the sun stands at 16 degrees at noon in December, and at 63 in June: a steep panel has more of one, and less of the other.</summary>
    [Fact]
    public void A_steep_panel_is_for_the_winter()
    {
        var (flat, steep) = (Yield(0), Yield(60));
        Assert.True(steep[11] > 1.3m * flat[11] && steep[5] < flat[5], $"{steep[11]} of {flat[11]}, {steep[5]} of {flat[5]}");
        static decimal[] Yield(int tilt)
        {
            var charge = FollowedFrom("2026-06-01", "50.5 N 8.1 E", "jun 12 C to 22 C; dec 0 C to 8 C",
                $"battery 5 Ah at 12 V; solar-panel 10 W tilt {tilt} deg");
            return [.. charge.Yield!.JoulesADay.Select(joules => joules ?? 0)];
        }
    }

    private static BatteryCharge FollowedFrom(string date, string place, string climate, string power)
    {
        var site = Sites.Read($"site bench {{ timezone Etc/UTC; effective {date}; location {place} }}\nclimate {{ {climate} }}\n"
            + $"controller box {{ power {{ {power} }} }}\n{OneZone}");
        return Followed(site, Horizon.DaysFrom(site.Effective, Days));
    }

    private static BatteryCharge Followed(string text)
    {
        var site = Sites.Read(Bench + text);
        return Followed(site, Horizon.DaysFrom(site.Effective, Days));
    }

    private static BatteryCharge Followed(Site site, Horizon horizon)
    {
        var context = new LintContext(Timetable.Of(site, horizon));
        var observer = new Observer(new BatteryCharge(context, site.Controllers.First(controller => controller.Power?.Battery is not null)));
        new TimelineWalker(context, [observer]).Go();
        observer.Charge.Finish();
        return observer.Charge;
    }

    private sealed class Observer(BatteryCharge charge) : ISwitchingObserver
    {
        public BatteryCharge Charge => charge;

        public void Visit(in Switching switching) => charge.Visit(switching);
    }
}
