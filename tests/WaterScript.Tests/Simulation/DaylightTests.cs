using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Tests.Linting;
using WaterScript.Tests.Timetables;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Simulation;

/// <summary>Watering from above by day: common practice, and whom it does not concern.</summary>
public class DaylightTests
{
    [Theory]
    [InlineData("start at 11:30", "rotor", "jun", 1)]
    [InlineData("start at 09:45", "spray", "jun", 1)] // into the time
    [InlineData("start at 09:40", "spray", "jun", 0)] // up to it
    [InlineData("start at 15:59", "spray", "jun", 1)]
    [InlineData("start at 16:00", "spray", "jun", 0)]
    [InlineData("start at 11:30", "rotor", "dec", 0)] // nine hours of daylight
    [InlineData("start at 11:30", "drip", "jun", 0)]
    [InlineData("start at 11:30", "bubbler", "jun", 0)]
    [InlineData("start at 11:30", "mist", "jun", 0)]
    public void Sprays_and_rotors_in_the_heat_of_the_day_are_found(string start, string heads, string month, int findings) =>
        Assert.Equal(findings, Lint.Of(Site(heads, $"every day; from 2 {month} to 20 {month}; {start}"), "midday-watering").Length);

    /// <summary>At 39.6 N the sun rises at about 06:10 in the middle of June and at 07:50 in December.</summary>
    [Theory]
    [InlineData("start at 07:30", "rotor", "jun", 0)]
    [InlineData("start at 08:20", "rotor", "jun", 1)]
    [InlineData("start at 09:59", "rotor", "jun", 1)]
    [InlineData("start at 10:00", "rotor", "jun", 0)]
    [InlineData("start at 08:20", "drip", "jun", 0)]
    [InlineData("start at 08:20", "rotor", "dec", 0)]
    [InlineData("start at 22:00", "rotor", "jun", 0)]
    [InlineData("finish by sunrise + 2 h", "rotor", "jun", 0)]
    [InlineData("finish by sunrise + 121 min", "rotor", "jun", 1)]
    public void What_ends_late_in_the_morning_is_found(string start, string heads, string month, int findings) =>
        Assert.Equal(findings, Lint.Of(Site(heads, $"every day; from 2 {month} to 20 {month}; {start}"), "ends-late").Length);

    [Fact]
    public void By_hand_it_is_nobodys_matter() =>
        Assert.DoesNotContain(Lint.Of(Site("rotor", "manual")).Findings, finding => finding.Rule.Slug is "midday-watering" or "ends-late");

    [Fact]
    public void Without_a_location_it_is_said_that_nothing_was_judged()
    {
        var text = Site("rotor", "every day; start at 11:30").Replace("location 39.6 N 8.1 W;", "", System.StringComparison.Ordinal);
        Assert.Contains("watering in the heat of the day (add location)", Lint.NotChecked(text));
        Assert.DoesNotContain(Lint.NotChecked(text.Replace("rotor", "drip", System.StringComparison.Ordinal)), what =>
            what.Contains("location", System.StringComparison.Ordinal));
    }

    /// <summary>
    /// A month is judged by its 15th: from latitude to latitude, whether the sun is up for longer than 12 h then, to the minute. Before the equinox a day more
    /// or less, or a minute, is another answer somewhere.
    /// </summary>
    [Fact]
    public void A_month_is_as_light_as_its_15th()
    {
        const int month = 3;
        for (var latitude = 28m; latitude < 44; latitude += 0.5m)
        {
            var place = System.FormattableString.Invariant($"{latitude} N");
            var text = Site("rotor", "every day; start at 06:00").Replace("39.6 N", place, System.StringComparison.Ordinal);
            var context = new SimulationContext(Timetable.Of(Sites.Read(text), Horizon.DaysFrom(new NodaTime.LocalDate(2026, 3, 1), 1)));
            var (daylight, middle) = (Daylight.Of(context)!, CivilDate.DayNumberOf(2026, month, 15));
            var sun = SunTimes.Of(context.Site.Position!, context.WallClock);
            var length = sun.EventOn(middle, SunEvent.Sunset) - sun.EventOn(middle, SunEvent.Sunrise);
            Assert.Equal(length > 12 * 60 * 60, daylight.IsInMonthLighterThan(CivilDate.DayNumberOf(2026, month, 2), 12));
        }
    }

    /// <summary>
    /// At 39.6 N the sun is up for less than 12 h on 15 March and for more on 15 September: no answer about a month is remembered as that of another, whichever
    /// is asked for first.
    /// </summary>
    [Fact]
    public void A_month_of_another_year_says_nothing_of_this()
    {
        var site = Sites.Read(Site("rotor", "every day; start at 06:00"));
        var context = new SimulationContext(Timetable.Of(site, Horizon.DaysFrom(new NodaTime.LocalDate(2026, 3, 1), 1)));
        for (var (first, months) = (0, 24); first < months; first++)
        {
            var daylight = Daylight.Of(context)!;
            foreach (var month in Enumerable.Range(first, months).Select(number => number % months))
                Assert.Equal(month % 12 is > 2 and < 9, daylight.IsInMonthLighterThan(CivilDate.DayNumberOf(2026 + (month / 12), (month % 12) + 1, 2), 12));
        }
    }

    private static string Site(string heads, string lines) =>
        $"site plot {{ timezone Europe/Lisbon; location 39.6 N 8.1 W; effective 2026-03-01 }}\nzone beds {{ output 1; method {heads} }}\n"
            + $"schedule a {{ {lines}; steps {{ water beds for 20 min }} }}";
}
