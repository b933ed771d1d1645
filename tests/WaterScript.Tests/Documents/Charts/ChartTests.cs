using System.Globalization;
using System.Xml.Linq;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Pages;
using WaterScript.Model;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Timetables;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Documents.Charts;

/// <summary>What a chart shows, and that nothing in it is lost or doubled.</summary>
public class ChartTests
{
    private const string Night = "schedule s { every day; start at 22:00; steps { water a for 10 min } }";

    [Theory]
    [MemberData(nameof(ExampleTests.Roots), MemberType = typeof(ExampleTests))]
    public void An_example_is_drawn_with_every_run_once(string path)
    {
        var site = Example.Read(path).Site!;
        var span = ChartSpan.FromFirstWater(site, 7)!;
        var chart = Charts.Of(site, span);

        var (first, last) = (chart.Days[0].From, chart.Days[^1].Until);
        var expected = Timetable.Of(site, new Horizon(span.First.PlusDays(-3), span.First.PlusDays(8))).Runs()
            .Where(run => run.End > first && run.Start < last)
            .Select(run => (run.Start, run.End, run.Zone)).Order().ToList();

        Assert.NotEmpty(expected);
        Assert.Equal(expected, RunsOf(chart).Order());
        var rows = Charts.PictureOf(chart).Nights.SelectMany(night => night.Rows.Select((_, index) => $"{night.Id}-{index}")).Order().ToList();
        Assert.Equal(rows, Elements(Charts.Svg(chart).Root!).Order());
        var page = Charts.Html(chart).Root!;
        Assert.Equal(rows, Elements(page).Order());
        Assert.Equal(rows.Select(row => $"row-{row}"), page.Descendants("tr").Attributes("id").Select(id => id.Value).Order());
    }

    [Theory]
    [MemberData(nameof(ExampleTests.Roots), MemberType = typeof(ExampleTests))]
    public void Bars_lead_to_the_lines_that_the_timetable_names(string path)
    {
        var site = Example.Read(path).Site!;
        var span = ChartSpan.FromFirstWater(site, 2)!;
        var timetable = Timetable.Of(site, new Horizon(span.First.PlusDays(-3), span.First.PlusDays(3)));
        var lines = timetable.Runs().Select(run => timetable.StepOf(run.Schedule, run.Step).Origin.Start.Line).ToHashSet();
        var page = Charts.Html(Charts.Of(site, span)).Root!;

        var bars = page.Descendants("a").Where(each => (string?)each.Attribute("class") == "run").ToList();
        Assert.NotEmpty(bars);
        Assert.All(bars, bar => Assert.Contains((int)bar.Attribute("data-line")!, lines));
        var ids = page.Descendants().Attributes("id").Select(id => id.Value).ToHashSet();
        Assert.All(bars, bar => Assert.Contains(bar.Attribute("href")!.Value[1..], ids));
    }

    [Theory]
    [MemberData(nameof(ChartSites.Names), MemberType = typeof(ChartSites))]
    public void Words_lie_neither_on_one_another_nor_outside(string name)
    {
        var picture = Charts.PictureOf(ChartSites.Of(name));
        foreach (var width in new[] { 1504.0, 1044, 720, 336 })
            Assert.All(Charts.Drawn(picture, width), night => Assert.Empty(DrawnWords.Faults(night.Svg, width, night.Height)));
    }

    [Theory]
    [InlineData("2026-03-28", 23, "clocks go forward 1 h", 3_600)]
    [InlineData("2026-10-24", 25, "clocks go back 1 h", -3_600)]
    [InlineData("2026-05-03", 24, null, 0)]
    public void A_day_with_a_clock_change_is_shorter_or_longer_and_its_hours_are_not(string from, int hours, string? words, long shift)
    {
        var chart = Charts.Of(Sites.Garden("schedule night { every day; start at 04:00; steps { water a for 1 h } }"), from);
        var night = Assert.Single(Charts.PictureOf(chart).Nights);

        Assert.Equal(hours * 3_600, night.Length);
        Assert.Equal(words is null ? [] : [words], chart.Days[0].Shifts.Select(each => each.Words));
        Assert.Equal(words is null ? [] : [shift], night.Shifts.Select(each => each.By));
        Assert.Equal("04:00", night.Clock(night.Rows[0].Start, withSeconds: false));
        Assert.Equal("12:00", night.Clock(night.Length, withSeconds: false));
    }

    [Fact]
    public void A_doubled_hour_stands_on_the_axis_twice()
    {
        var picture = Charts.PictureOf(Charts.Of(Sites.Garden("schedule s { every day; start at 00:30; steps { water a for 4 h } }"), "2026-10-24"));
        var texts = XElement.Parse(Charts.Drawn(picture, 1504)[0].Svg).Descendants("text").Select(text => text.Value).ToList();

        Assert.Equal(2, texts.Count(text => text == "01:00"));
        Assert.Single(texts, text => text == "02:00");
    }

    [Fact]
    public void Passes_that_repeat_alike_are_one_row_that_says_how_often()
    {
        var picture = Charts.PictureOf(Charts.Of(
            Sites.Garden("schedule mist { every day; start at 13:00; repeat every 8 min until 17:00; steps { water a for 12 s } }"), "2026-05-03"));
        var row = Assert.Single(picture.Nights[0].Rows);

        Assert.Equal((31, 480, 12), (row.Times, row.Every, row.Length));
        Assert.Contains("13:00–17:00, every 8 min for 12 s, 31 times", Charts.Drawn(picture, 1044)[0].Svg, StringComparison.Ordinal);
    }

    [Fact]
    public void Cycles_of_a_pass_stand_one_by_one_with_one_label()
    {
        var picture = Charts.PictureOf(Charts.Of(
            Sites.Garden("schedule s { every day; start at 14:00, 18:00; steps { repeat 3 times { water a for 10 min; pause 40 min } } }"), "2026-05-03"));

        Assert.Equal(6, picture.Nights[0].Rows.Length);
        Assert.Equal(2, Charts.Drawn(picture, 1504)[0].Svg.Split("3 × 10 min").Length - 1);
    }

    [Fact]
    public void A_run_over_noon_belongs_to_the_night_in_which_it_starts_and_is_drawn_in_both()
    {
        var chart = Charts.Of(Sites.Garden("schedule s { on 2026-05-04; start at 11:30; steps { water a for 1 h } }"), "2026-05-03", days: 2);
        var picture = Charts.PictureOf(chart);

        Assert.Equal([1, 0], chart.Days.Select(day => day.Runs.Length));
        Assert.Equal([(84_600L, 88_200L), (-1_800L, 1_800L)], picture.Nights.Select(night => night.Rows.Single()).Select(row => (row.Start, row.End)));
        Assert.Equal(["1 h", ""], picture.Nights.Select(night => night.Figures.Single().Time));
    }

    [Fact]
    public void Flow_power_and_level_are_what_the_checks_calculate_with()
    {
        var chart = Charts.Of(
            """
            site s { timezone Europe/Lisbon; effective 2026-05-01 }
            supply butt { flow 20 L/min; tank 1000 L; refill 5 L/min; reserve 100 L }
            controller box { outputs 2; power { transformer 20 VA at 24 V } }
            valve ac non-latching { inrush 0.3 A; holding 0.25 A }
            zone a { output 1; valve ac; flow 10 L/min }
            zone b { output 2; valve ac; flow 15 L/min }
            schedule day { every day; start at 14:00; steps { water a + b for 30 min; water a for 30 min } }
            """,
            "2026-05-01");
        var day = chart.Days[0];
        long At(int hour, int minute) => day.From + ((hour - 12) * 3_600) + (minute * 60);

        Assert.Equal([CurveKind.Flow, CurveKind.Level, CurveKind.Power], day.Curves.Select(curve => curve.Kind));
        Assert.Equal(
            [(At(12, 0), 0m), (At(14, 0), 0m), (At(14, 0), 25m), (At(14, 30), 25m), (At(14, 30), 10m), (At(15, 0), 10m), (At(15, 0), 0m), (day.Until, 0m)],
            Corners(day.Curves[0]));
        Assert.Equal([new ChartBand(At(14, 0), At(14, 30))], day.Curves[0].Beyond.AsEnumerable());

        // 1000 L, less 30 min of 25 − 5 L/min, less 30 min of 10 − 5 L/min, then 5 L/min until it is full again 150 min later: worked out by hand.
        Assert.Equal(
            [(At(12, 0), 1000m), (At(14, 0), 1000m), (At(14, 30), 400m), (At(15, 0), 250m), (At(17, 30), 1000m), (day.Until, 1000m)],
            Corners(day.Curves[1]));
        Assert.Equal([6m, 12m], day.Curves[2].Corners.Select(corner => corner.Value).Where(value => value > 0).Distinct().Order());
        Assert.Equal(20m, day.Curves[2].Limit);

        // Both open at 14:00, one after the other: 0.25 A held and 0.3 A as the second opens, at 24 V, worked out by hand.
        Assert.Equal((At(14, 0), 13.2m), (day.Curves[2].Rushes[0].At, day.Curves[2].Rushes[0].Value));
    }

    [Fact]
    public void A_finding_is_marked_in_every_night_in_which_it_happens_over_the_zone_that_it_is_about()
    {
        var chart = Charts.Of(
            """
            site s { timezone Europe/Lisbon; effective 2026-05-01 }
            supply tap { flow 20 L/min }
            zone other { output 2; flow 1 L/min }
            zone a { output 1; flow 25 L/min }
            schedule night { every day; start at 02:00; steps { water a for 30 min } }
            """,
            "2026-06-01",
            days: 3);

        Assert.Equal("flow-over-supply", Assert.Single(chart.Findings).Finding.Rule.Slug);
        Assert.All(chart.Days, day => Assert.Equal([(day.From + (14 * 3_600), 1)], day.Marks.Select(mark => (mark.At, mark.Zone))));
        Assert.Equal(3, Charts.PictureOf(chart).Nights.Sum(night => Charts.Drawn(Charts.PictureOf(chart), 1044)[night.Id].Svg.Split("sign error").Length - 1));
    }

    [Fact]
    public void Forbidden_hours_are_shaded_in_the_lanes_that_they_bind()
    {
        var day = Charts.Of(
            Sites.Garden("""
                restriction town { for a; allow between 20:00 and 06:00 }
                schedule s { every day; start at 22:00; steps { water a + b for 10 min } }
                """),
            "2026-05-03").Days[0];
        var forbidden = Assert.Single(day.Forbidden);

        Assert.Equal(("town", 0), (forbidden.Restriction, Assert.Single(forbidden.Zones)));
        Assert.Equal([new(day.From, day.From + (8 * 3_600)), new(day.From + (18 * 3_600), day.Until)], forbidden.Bands.AsEnumerable());
    }

    [Fact]
    public void Night_is_shaded_from_sunset_to_sunrise_where_the_place_is_known()
    {
        var day = Charts.Of(Sites.Garden(Night), "2026-05-03").Days[0];
        var clock = new ZoneClock(DateTimeZoneProviders.Tzdb["Europe/Lisbon"]);
        var sun = SunTimes.Of(new Position(39.6, -8.1, Height: null), clock);
        var date = CivilDate.DayNumberOf(2026, 5, 3);
        ChartBand expected = new(sun.EventOn(date, SunEvent.Sunset)!.Value, sun.EventOn(date + 1, SunEvent.Sunrise)!.Value);

        Assert.Equal([expected], day.Nights.AsEnumerable());
        Assert.Equal([expected.From, expected.Until], day.Sun.Select(note => note.At));
        Assert.Empty(Charts.Of(Sites.Garden(Night).Replace("; location 39.6 N 8.1 W", "", StringComparison.Ordinal), "2026-05-03").Days[0].Nights);
    }

    [Fact]
    public void What_a_hold_or_a_closed_season_takes_is_drawn_hollow_with_its_reason()
    {
        const string site = """
            site s { timezone Europe/Lisbon; effective 2026-05-01 }
            zone a { output 1; flow 10 L/min }
            zone b { output 2; flow 10 L/min }
            hold a from 2026-06-08 22:05 to 2026-06-09 12:00 because "fair"
            closed from 1 jul to 31 jul because "well is cleaned"
            schedule s { every day; start at 22:00; steps { water a + b for 20 min } }
            """;
        var held = Charts.Of(site, "2026-06-08").Days[0];
        var closed = Charts.Of(site, "2026-07-05").Days[0];

        Assert.Equal([(held.From + 36_300, held.From + 37_200, 0, "held: fair")],
            held.Held.Select(each => (each.From, each.Until, each.Zone.Index, each.Because)));
        Assert.Equal([300L, 1_200L], held.Runs.Select(run => run.Run.Seconds));
        Assert.Equal(["closed season: well is cleaned", "closed season: well is cleaned"], closed.Held.Select(each => each.Because));
        Assert.Empty(closed.Runs);
        Assert.Contains("class=\"hold\"", Charts.TextOf(SvgChart.Write, Charts.Of(site, "2026-07-05")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("""</title></text></style><script>alert(1)</script>""")]
    [InlineData("\" onmouseover=\"alert(1)")]
    [InlineData("&lt;b&gt; &amp; ]]> <!-- -->")]
    [InlineData("\u202Edeb nedrag\u202C")]
    [InlineData("'\u0007\uFFFE\uD83C")]
    public void A_label_is_text_and_nothing_else(string label)
    {
        var site = Sites.Read(Sites.Garden(Night));
        site = site with
        {
            Label = label,
            Zones = [.. site.Zones.Select(zone => zone with { Label = label })],
            Schedules = [.. site.Schedules.Select(schedule => schedule with { Label = label })],
        };
        var plain = Charts.Of(Sites.Garden(Night), "2026-05-03");
        var hostile = Charts.Of(site, new ChartSpan(plain.Days[0].Date, 1));

        Assert.Equal(Shape(Charts.Svg(plain)), Shape(Charts.Svg(hostile)));
        Assert.Equal(Shape(Charts.Html(plain)), Shape(Charts.Html(hostile)));
        Assert.Equal(2, Charts.TextOf(HtmlChart.Write, hostile).Split("</script>").Length - 1);
    }

    [Fact]
    public void A_page_holds_all_that_it_needs_and_asks_for_nothing()
    {
        var page = Charts.Html(ChartSites.Of("findings"));

        Assert.DoesNotContain(page.Descendants().Attributes(), attribute =>
            attribute.Name.LocalName.StartsWith("on", StringComparison.Ordinal) || attribute.Name == "style" || attribute.Name == "src");
        Assert.All(page.Descendants().Attributes("href"), href => Assert.True(href.Value == "data:," || href.Value[0] == '#', href.Value));
        Assert.DoesNotContain("http", page.Descendants("style").Single().Value, StringComparison.Ordinal);
    }

    [Fact]
    public void A_source_link_leads_to_a_repository()
    {
        var chart = ChartSites.Of("examples/park/park.water");
        using var stream = new MemoryStream();
        HtmlChart.Write(chart, new ChartOptions("https://example.org/garden/{path}?plain=1#L{line}"), stream);
        var text = System.Text.Encoding.UTF8.GetString(stream.ToArray());

        Assert.Matches("href=\"https://example.org/garden/examples/park/[a-z-]+\\.water\\?plain=1#L[0-9]+\"", text);
        Assert.DoesNotContain("class=\"run\" tabindex=\"-1\" data-run=\"0-0\" data-line=\"1\" href=\"#", text, StringComparison.Ordinal);
        Assert.True(PictureLinks.IsPattern("http://example.org/{line}"));
        Assert.All(new[] { "javascript:alert({line})", "https://example.org/", "/{path}#L{line}", "data:text/html,{line}" },
            pattern => Assert.False(PictureLinks.IsPattern(pattern), pattern));
    }

    [Fact]
    public void The_same_site_gives_the_same_bytes()
    {
        static string Text() => Charts.TextOf(HtmlChart.Write, ChartSites.Of("mist week"));
        var first = Text();

        var culture = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new CultureInfo("",
                useUserOverride: false)
            { NumberFormat = { NumberDecimalSeparator = ",", NumberGroupSeparator = "'", NegativeSign = "minus " } };
            Assert.Equal(first, Text());
        }
        finally
        {
            CultureInfo.CurrentCulture = culture;
        }
    }

    [Fact]
    public void The_picture_in_the_documentation_is_what_the_example_gives()
    {
        var site = Example.Read("examples/terraces.water").Site!;
        var text = Charts.TextOf(SvgChart.Write, Charts.Of(site, new ChartSpan(new LocalDate(2026, 7, 1), 1)));
        var file = Path.Combine(Repository.Root, "docs/chart.svg");
        if (Environment.GetEnvironmentVariable("WATERSCRIPT_WRITE_PAGES") == "1") File.WriteAllText(file, text);

        Assert.Equal(text, File.ReadAllText(file).ReplaceLineEndings("\n"));
    }

    private static IEnumerable<(long Start, long End, int Zone)> RunsOf(WaterScript.Documents.Charts.Chart chart) => Charts.PictureOf(chart).Nights.SelectMany(
        night => night.Rows.Where(row => row.Start >= 0 || night.Id == 0).SelectMany(row => Enumerable.Range(0, row.Times)
            .Select(time => chart.Days[night.Id].From + row.Start + (time * row.Every))
            .Select(start => (start, start + row.Length, row.Zone))));

    private static IEnumerable<(long, decimal)> Corners(ChartCurve curve) => curve.Corners.Select(corner => (corner.At, corner.Value));

    private static IEnumerable<string> Elements(XElement root) => root.Descendants().Attributes("data-run").Select(attribute => attribute.Value);

    /// <summary>The names of all elements and attributes, in order.</summary>
    private static string[] Shape(XDocument document) =>
        [.. document.Descendants().Select(element =>
            $"{element.Name.LocalName} {string.Join(' ', element.Attributes().Select(attribute => attribute.Name.LocalName))}")];
}
