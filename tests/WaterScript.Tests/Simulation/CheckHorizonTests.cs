using NodaTime;
using WaterScript.Simulation;
using Xunit;
using static WaterScript.Tests.Timetables.Sites;

namespace WaterScript.Tests.Simulation;

/// <summary>Two years from the first date, stretched by whole years to a year past the latest date that a schedule names; by hand.</summary>
public class CheckHorizonTests
{
    [Theory]
    [InlineData("every day", "2028-01-01")]
    [InlineData("on 2027-01-01", "2028-01-01")] // a year later is just the end
    [InlineData("on 2027-01-02", "2029-01-01")]
    [InlineData("on mon; except 2027-01-02", "2029-01-01")]
    [InlineData("every day; from 2026-06-02 to 2029-05-01", "2031-01-01")]
    [InlineData("every day; from 2030-01-01", "2031-01-01")]
    [InlineData("every day; from 15 may to 30 sep", "2028-01-01")]
    public void It_is_whole_years_to_a_year_past_the_latest_date(string days, string until)
    {
        var horizon = CheckHorizon.Of(Read(Garden($"schedule s {{ {days}; start at 06:00; steps {{ water a for 10 min }} }}")));
        Assert.Equal(("2026-01-01", until), (horizon.From.ToString("uuuu-MM-dd", null), horizon.Until.ToString("uuuu-MM-dd", null)));
    }

    [Fact]
    public void It_may_begin_on_another_date()
    {
        var site = Read(Garden("schedule s { on 2027-08-02; start at 06:00; steps { water a for 10 min } }"));
        Assert.Equal(new LocalDate(2029, 8, 1), CheckHorizon.Of(site, new LocalDate(2026, 8, 1)).Until);
        Assert.Equal(new LocalDate(2028, 8, 2), CheckHorizon.Of(site, new LocalDate(2026, 8, 2)).Until);
    }
}
