using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Tests.Documentation;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests;

/// <summary>Every public member throws what its documentation says, before it does anything else.</summary>
public class CompilationGuardTests
{
    private static readonly LocalDate May = new(2026, 5, 1);
    private static readonly string Text = Repository.Read("examples/balcony.water");
    private static readonly Compilation Balcony = Compilation.Of("balcony.water", _ => Text);
    private static readonly Compilation Faulty =
        Compilation.Of("balcony.water", _ => Text.Replace("water herbs for", "water herb for", StringComparison.Ordinal));

    private static readonly Compilation Dry =
        Compilation.Of("balcony.water", _ => Text[..Text.IndexOf("schedule tomatoes", StringComparison.Ordinal)]);

    [Fact]
    public void Nothing_takes_null()
    {
        var timetable = Balcony.Timetable();
        Assert.Throws<ArgumentNullException>("path", () => Compilation.Of(null!, _ => ""));
        Assert.Throws<ArgumentNullException>("readFile", () => Compilation.Of("a.water", null!));
        Assert.Throws<ArgumentNullException>("schedule", () => Balcony.OnePass(null!, May.AtMidnight()));
        Assert.Throws<ArgumentNullException>("text", () => Compilation.Format(null!));
        foreach (var write in (Action<Stream>[])
            [
                output => Balcony.WriteSvgChart(output), output => Balcony.WriteHtmlChart(output), Balcony.WriteJsonReport,
                output => timetable.WriteYaml(output), output => timetable.WriteJson(output),
                output => timetable.WriteCsv(output), output => timetable.WriteICalendar(output),
            ]) Assert.Throws<ArgumentNullException>("output", () => write(null!));
    }

    [Theory]
    [InlineData("")]
    [InlineData("/balcony.water")]
    [InlineData("../balcony.water")]
    [InlineData("a/./balcony.water")]
    [InlineData("a//balcony.water")]
    [InlineData("a\\balcony.water")]
    [InlineData("C:balcony.water")]
    [InlineData("a\0.water")]
    public void A_path_goes_down_from_the_root_folder(string path) => Assert.Throws<ArgumentException>(nameof(path), () => Compilation.Of(path, _ => Text));

    [Fact]
    public void A_root_file_that_is_not_there_is_no_site() =>
        Assert.Equal("balcony.water", Assert.Throws<FileNotFoundException>(() => Compilation.Of("balcony.water", _ => null)).FileName);

    [Fact]
    public void What_reading_throws_comes_through() =>
        Assert.Throws<TimeoutException>(() => Compilation.Of("balcony.water", _ => throw new TimeoutException()));

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(Limits.HorizonDays + 1)]
    public void A_timetable_ends_after_it_begins_and_within_a_hundred_years(int days) =>
        Assert.Throws<ArgumentOutOfRangeException>("until", () => Balcony.Timetable(May, May.PlusDays(days)));

    [Fact]
    public void A_timetable_may_have_one_day_and_a_hundred_years()
    {
        Assert.Equal(May.PlusDays(1), Balcony.Timetable(May, May.PlusDays(1)).Until);
        Assert.Equal(May.PlusDays(Limits.HorizonDays), Balcony.Timetable(May, May.PlusDays(Limits.HorizonDays)).Until);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-9_998)]
    [InlineData(9_001)]
    [InlineData(9_999)]
    public void Years_go_from_1_to_9000(int year)
    {
        var date = new LocalDate(year, 1, 1);
        Assert.Throws<ArgumentOutOfRangeException>("checkFrom", () => Compilation.Of("a.water", _ => Text, date));
        Assert.Throws<ArgumentOutOfRangeException>("from", () => Balcony.Timetable(date, May));
        Assert.Throws<ArgumentOutOfRangeException>("until", () => Balcony.Timetable(May, date));
        Assert.Throws<ArgumentOutOfRangeException>("at", () => Balcony.OnePass("herbs", date.AtMidnight()));
        Assert.Throws<ArgumentOutOfRangeException>("first", () => Balcony.WriteSvgChart(Stream.Null, date));
        Assert.Throws<ArgumentOutOfRangeException>("first", () => Balcony.WriteHtmlChart(Stream.Null, date));
        Assert.Throws<ArgumentOutOfRangeException>("stamp", () => Balcony.Timetable().WriteICalendar(Stream.Null, date.AtMidnight().InUtc().ToInstant()));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(9_000)]
    public void The_first_and_the_last_year_are_years(int year)
    {
        var date = new LocalDate(year, 6, 1);
        Assert.Equal(date, Compilation.Of("a.water", _ => Text, date).CheckedFrom);
        Assert.Equal(year < 2026 ? 0 : 1, Balcony.Timetable(date, date.PlusDays(7)).Runs().Take(1).Count());
        Assert.Single(Balcony.OnePass("herbs", date.AtMidnight()).Runs());
        Balcony.WriteSvgChart(Stream.Null, date);
        Balcony.Timetable(May, May.PlusDays(7)).WriteICalendar(Stream.Null, date.AtMidnight().InUtc().ToInstant());
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(Limits.ChartDays + 1)]
    public void A_chart_has_one_day_or_a_month(int days) =>
        Assert.Throws<ArgumentOutOfRangeException>(nameof(days), () => Balcony.WriteSvgChart(Stream.Null, May, days));

    [Fact]
    public void Names_are_those_of_the_site()
    {
        var timetable = Balcony.Timetable();
        Assert.Throws<ArgumentException>("schedule", () => Balcony.OnePass("herb", May.AtMidnight()));
        Assert.Throws<ArgumentException>("controller", () => timetable.WriteYaml(Stream.Null, controller: "bux"));
        Assert.Throws<ArgumentException>("controller", () => timetable.WriteJson(Stream.Null, controller: ""));
        Assert.Throws<ArgumentException>("controller", () => timetable.WriteCsv(Stream.Null, controller: "bux"));
        Assert.Throws<ArgumentException>("controller", () => timetable.WriteICalendar(Stream.Null, controller: "bux"));
    }

    [Fact]
    public void A_list_is_one_that_there_is()
    {
        var timetable = Balcony.Timetable();
        Assert.Throws<ArgumentOutOfRangeException>("only", () => timetable.WriteYaml(Stream.Null, (TimetableRows)3));
        Assert.Throws<ArgumentOutOfRangeException>("only", () => timetable.WriteJson(Stream.Null, (TimetableRows)(-1)));
        Assert.Throws<ArgumentOutOfRangeException>("rows", () => timetable.WriteCsv(Stream.Null, (TimetableRows)3));
    }

    [Fact]
    public void A_site_with_an_error_has_no_timetable_and_no_chart()
    {
        foreach (var call in (Action[])
            [
                () => Faulty.Timetable(), () => Faulty.Timetable(May, May.PlusDays(1)), () => Faulty.OnePass("herbs", May.AtMidnight()),
                () => Faulty.WriteSvgChart(Stream.Null), () => Faulty.WriteHtmlChart(Stream.Null, May),
            ]) Assert.Contains("balcony.water:", Assert.Throws<InvalidOperationException>(call).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_at_all_is_a_site_with_an_error()
    {
        var nothing = Compilation.Of("a.water", _ => "");
        Assert.Null(nothing.Site);
        Assert.True(nothing.HasErrors);
        Assert.Throws<InvalidOperationException>(() => nothing.Timetable());
    }

    [Fact]
    public void Without_water_there_is_no_calendar_and_no_first_noon()
    {
        using var output = new MemoryStream();
        Assert.Throws<InvalidOperationException>(() => Balcony.Timetable(new(2026, 1, 1), new(2026, 2, 1)).WriteICalendar(output));
        Assert.Throws<InvalidOperationException>(() => Dry.WriteSvgChart(output));
        Assert.Equal(0, output.Length);
        Dry.WriteSvgChart(output, May);
        Assert.NotEqual(0, output.Length);
    }

    /// <summary>A device counts seconds in 32 bits, which are used up in February 2106.</summary>
    [Fact]
    public void A_list_for_a_device_ends_where_its_clock_does()
    {
        using var output = new MemoryStream();
        var late = Balcony.Timetable(new(2110, 5, 1), new(2110, 6, 1));
        Assert.Throws<InvalidOperationException>(() => late.WriteCsv(output, TimetableRows.Switchings));
        Assert.Equal(0, output.Length);
        late.WriteCsv(output);
        Assert.NotEqual(0, output.Length);
    }

    [Fact]
    public void Inside_too_a_timetable_is_one_of_its_site()
    {
        var (site, other) = (Balcony.Check.Reading.Site!, Compilation.Of("a.water", _ => Text).Check.Reading.Site!);
        Assert.Throws<ArgumentNullException>("site", () => Timetable.Of(null!, Horizon.YearFrom(May)));
        Assert.Throws<ArgumentNullException>("horizon", () => Timetable.Of(site, null!));
        Assert.Throws<ArgumentOutOfRangeException>("horizon", () => Timetable.Of(site, new Horizon(May, May.PlusDays(-1))));
        Assert.Throws<ArgumentException>("schedule", () => Timetable.OfOnePass(site, other.Schedules[0], May.AtMidnight()));
        Assert.Throws<ArgumentException>("schedule", () => Timetable.OfOnePass(Dry.Check.Reading.Site!, site.Schedules[1], May.AtMidnight()));
    }
}
