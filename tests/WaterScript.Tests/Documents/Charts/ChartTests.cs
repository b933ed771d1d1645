using System.Globalization;
using System.Xml.Linq;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Model;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Timetables;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Documents.Charts;

/// <summary>What a chart shows, and that nothing in it is lost, doubled or hidden by something else.</summary>
public class ChartTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

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
            .Select(run => (run.Start, run.End, run.Zone)).ToList();

        Assert.NotEmpty(expected);
        Assert.Equal(expected, chart.Days.SelectMany(day => day.Runs).Select(run => (run.Run.Start, run.Run.End, run.Run.Zone)));
        Assert.Equal(Numbers(expected.Count), Elements(Charts.Svg(chart).Root!).Order());
        var page = Charts.Html(chart).Root!;
        Assert.Equal(Numbers(expected.Count), Elements(page).Order());
        Assert.Equal(expected.Count, page.Descendants("tbody").SelectMany(body => body.Elements("tr")).Count());
    }

    [Theory]
    [MemberData(nameof(ExampleTests.Roots), MemberType = typeof(ExampleTests))]
    public void Texts_of_an_example_do_not_overlap(string path)
    {
        var site = Example.Read(path).Site!;

        AssertLegible(Charts.Of(site, ChartSpan.FromFirstWater(site, 7)!));
    }

    [Fact]
    public void Twelve_zones_over_a_week_and_eighty_over_a_day_are_legible()
    {
        AssertLegible(Charts.Of(ManyZones(12, "every day"), "2026-05-03", days: 7));
        AssertLegible(Charts.Of(ManyZones(80, "every day"), "2026-05-03"));
        AssertLegible(Charts.Of(LargeSites.TwelveZones, "2026-05-03", days: 7));
        AssertLegible(Charts.Of(LargeSites.EightyZones, "2026-05-06"));
    }

    [Fact]
    public void Numbers_stand_in_the_units_of_the_file()
    {
        var text = Charts.TextOf(SvgChart.Write, Charts.Of(LargeSites.EightyZones, "2026-05-06"));
        Assert.Contains(" in all, 13632 gal.", text, StringComparison.Ordinal);
        Assert.Contains("63.0 gpm: 3.0 gpm too much; gives 60 gpm", text, StringComparison.Ordinal);
        Assert.Contains("down to 19859 gal of 20000 gal; reserve 2000 gal", text, StringComparison.Ordinal);
        Assert.Contains("every 10 min 13:00–17:00, 25 times", text, StringComparison.Ordinal);
        Assert.DoesNotContain("L/min", text, StringComparison.Ordinal);
        var scale = Charts.Drawings(Charts.Of(LargeSites.EightyZones, "2026-05-06")).Single();
        Assert.Equal(["0", "0", "0", "0", "0", "20000", "40", "40", "45", "60"],
            scale.Texts.Where(word => word.X > scale.Right && word.Class == "hour").Select(word => word.Content).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Of_many_zones_each_strip_has_its_hours_and_no_bar_is_in_two()
    {
        var drawing = Charts.Drawings(Charts.Of(LargeSites.EightyZones, "2026-05-06")).Single();
        Assert.Equal(5, drawing.Strips.Count);
        Assert.Equal((0, drawing.Height), (drawing.Strips[0].Top, drawing.Strips[^1].Bottom));
        Assert.All(drawing.Strips.Zip(drawing.Strips.Skip(1)), pair => Assert.Equal(pair.First.Bottom, pair.Second.Top));
        Assert.All(drawing.Strips, strip =>
            Assert.Equal(2, drawing.Texts.Count(text => text.Class == "hour" && text.Content == "12" && text.Y > strip.Top && text.Y < strip.FieldTop)));
        Assert.All(drawing.Items, item => Assert.Single(drawing.Strips, strip => item.Whole.Y >= strip.FieldTop && item.Whole.Bottom <= strip.Bottom));
    }

    [Fact]
    public void A_lane_with_waterings_close_to_one_another_stays_legible() => AssertLegible(Charts.Of(
        Sites.Garden("""
            schedule often {
              every day
              start at 00:10, 01:20, 02:15, 02:50, 06:00, 11:30, 11:50, 12:10, 23:40
              steps { water a for 7 min; pause 3 min; water a for 5 min }
            }
            """),
        "2026-05-03",
        days: 3));

    [Theory]
    [InlineData("2026-03-28", 23, "clocks go forward 1 h")]
    [InlineData("2026-10-24", 25, "clocks go back 1 h")]
    [InlineData("2026-05-03", 24, null)]
    public void A_day_with_a_clock_change_is_shorter_or_longer_and_its_hours_are_not(string from, int hours, string? note)
    {
        var chart = Charts.Of(Sites.Garden("schedule night { every day; start at 04:00; steps { water a for 1 h } }"), from);
        var day = chart.Days[0];
        var drawing = Charts.Drawings(chart).Single();

        Assert.Equal(hours * 3_600, day.Until - day.From);
        Assert.Equal(hours + 1, day.Hours.Length);
        Assert.Equal((12, 12), (day.Hours[0].Hour, day.Hours[^1].Hour));
        Assert.Equal(hours * DayDrawing.HourWidth, drawing.Right - drawing.Left, 6);
        Assert.Equal(DayDrawing.HourWidth, drawing.Items.Single().Runs.Single().Box.Width, 6);
        Assert.Equal(note is null ? [] : [note],
            day.Notes.Where(other => other.Text.StartsWith("clocks", StringComparison.Ordinal)).Select(other => other.Text));
        Assert.Equal(drawing.X(day.Hours.Last(hour => hour.Hour == 4).At), drawing.Items.Single().Whole.X, 6);
    }

    [Fact]
    public void A_doubled_hour_stands_on_the_axis_twice() =>
        Assert.Equal([0, 1, 1, 2], Charts.Of(Sites.Garden("schedule s { every day; start at 04:00; steps { water a for 1 h } }"),
            "2026-10-24").Days[0].Hours.Select(hour => hour.Hour).Where(hour => hour <= 2));

    [Fact]
    public void Passes_too_short_to_see_are_one_row_that_says_how_often()
    {
        var chart = Charts.Of(Sites.Garden("schedule mist { every day; start at 13:00; repeat every 8 min until 17:00; steps { water a for 12 s } }"),
            "2026-05-03");
        var item = Assert.Single(chart.Days[0].Lanes[0].Items);

        Assert.Equal((true, 31, 480L), (item.IsRow, item.Passes, item.Every));
        Assert.Contains(Charts.Drawings(chart).Single().Texts, text => text.Content == "every 8 min 13:00–17:00, 31 times");
        Assert.Equal(31, Elements(Charts.Svg(chart).Root!).Count());
    }

    [Fact]
    public void Cycles_of_a_pass_are_one_item_and_passes_are_not()
    {
        var chart = Charts.Of(
            Sites.Garden("schedule s { every day; start at 14:00, 18:00; steps { repeat 3 times { water a for 10 min; pause 20 min } } }"), "2026-05-03");

        Assert.Equal([3, 3], chart.Days[0].Lanes[0].Items.Select(item => item.Runs.Length));
        Assert.Equal(["14:00–15:10, 3 cycles", "18:00–19:10, 3 cycles"],
            Charts.Drawings(chart).Single().Texts.Where(text => text.Class == "time").Select(text => text.Content));
    }

    [Fact]
    public void A_run_over_noon_is_an_element_of_the_day_on_which_it_starts_and_drawn_on_both()
    {
        var chart = Charts.Of(Sites.Garden("schedule s { on 2026-05-04; start at 11:30; steps { water a for 1 h } }"), "2026-05-03", days: 2);
        var drawings = Charts.Drawings(chart).ToList();

        Assert.Equal([1, 0], chart.Days.Select(day => day.Runs.Length));
        Assert.Equal([false, true], drawings.Select(drawing => drawing.Items.Single().Runs.Single().IsRest));
        Assert.All(drawings, drawing => Assert.Equal(DayDrawing.HourWidth / 2, drawing.Items.Single().Runs.Single().Box.Width, 6));
        Assert.Single(Elements(Charts.Svg(chart).Root!));
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
    }

    [Fact]
    public void A_finding_is_marked_on_every_day_on_which_it_happens()
    {
        var chart = Charts.Of(
            """
            site s { timezone Europe/Lisbon; effective 2026-05-01 }
            supply tap { flow 20 L/min }
            zone a { output 1; flow 25 L/min }
            schedule night { every day; start at 02:00; steps { water a for 30 min } }
            """,
            "2026-06-01",
            days: 3);

        Assert.Equal("flow-over-supply", Assert.Single(chart.Findings).Finding.Rule.Slug);
        Assert.All(chart.Days, day => Assert.Equal([day.From + (14 * 3_600)], day.Marks.Select(mark => mark.At)));
        Assert.Equal(3, Charts.Svg(chart).Descendants(Svg + "g").Count(group => (string?)group.Attribute("class") == "mark"));
    }

    [Fact]
    public void Forbidden_hours_are_shaded_in_the_lanes_that_they_bind()
    {
        var chart = Charts.Of(
            Sites.Garden("""
                restriction town { for a; allow between 20:00 and 06:00 }
                schedule s { every day; start at 22:00; steps { water a for 10 min } }
                """),
            "2026-05-03");
        var day = chart.Days[0];

        Assert.Equal([new(day.From, day.From + (8 * 3_600)), new(day.From + (18 * 3_600), day.Until)], day.Lanes[0].Forbidden.AsEnumerable());
        Assert.Empty(day.Lanes[1].Forbidden);
        Assert.Equal("town", Assert.Single(chart.Restrictions));
    }

    [Fact]
    public void Night_is_shaded_from_sunset_to_sunrise_where_the_place_is_known()
    {
        const string schedule = "schedule s { every day; start at 22:00; steps { water a for 10 min } }";
        var day = Charts.Of(Sites.Garden(schedule), "2026-05-03").Days[0];
        var clock = new ZoneClock(DateTimeZoneProviders.Tzdb["Europe/Lisbon"]);
        var sun = SunTimes.Of(new Position(39.6, -8.1, Height: null), clock);
        var date = CivilDate.DayNumberOf(2026, 5, 3);
        ChartBand expected = new(sun.EventOn(date, SunEvent.Sunset)!.Value, sun.EventOn(date + 1, SunEvent.Sunrise)!.Value);

        Assert.Equal([expected], day.Nights.AsEnumerable());
        Assert.Equal([expected.From, expected.Until], day.Notes.Select(note => note.At));
        Assert.Equal(["sunset", "sunrise"], day.Notes.Select(note => note.Text.Split(' ')[0]));
        Assert.Empty(Charts.Of(Sites.Garden(schedule).Replace("; location 39.6 N 8.1 W", "", StringComparison.Ordinal), "2026-05-03").Days[0].Nights);
    }

    [Theory]
    [InlineData("""</title></text></style><script>alert(1)</script>""")]
    [InlineData("\" onmouseover=\"alert(1)")]
    [InlineData("&lt;b&gt; &amp; ]]> <!-- -->")]
    [InlineData("\u202Edeb nedrag\u202C")]
    [InlineData("'\u0007\uFFFE\uD83C")]
    public void A_label_is_text_and_nothing_else(string label)
    {
        var site = Sites.Read(Sites.Garden("schedule s { every day; start at 22:00; steps { water a for 10 min } }"));
        site = site with
        {
            Label = label,
            Zones = [.. site.Zones.Select(zone => zone with { Label = label })],
            Schedules = [.. site.Schedules.Select(schedule => schedule with { Label = label })],
        };
        var plain = Charts.Of(Sites.Garden("schedule s { every day; start at 22:00; steps { water a for 10 min } }"), "2026-05-03");
        var hostile = Charts.Of(site, new ChartSpan(plain.Days[0].Date, 1));

        Assert.Equal(Shape(Charts.Svg(plain)), Shape(Charts.Svg(hostile)));
        Assert.Equal(Shape(Charts.Html(plain)), Shape(Charts.Html(hostile)));
        AssertLegible(hostile);
    }

    [Fact]
    public void A_page_holds_all_that_it_needs_and_asks_for_nothing()
    {
        var page = Charts.Html(Charts.Of(ManyZones(3, "every day"), "2026-05-03"));

        Assert.DoesNotContain(page.Descendants().Attributes(), attribute =>
            attribute.Name.LocalName.StartsWith("on", StringComparison.Ordinal) || attribute.Name == "style" || attribute.Name == "src");
        Assert.Equal(["data:,"], page.Descendants().Attributes("href").Select(attribute => attribute.Value));
        Assert.DoesNotContain("http", page.Descendants("style").Single().Value, StringComparison.Ordinal);
        Assert.DoesNotContain("url(", page.Descendants("style").Single().Value, StringComparison.Ordinal);
    }

    [Fact]
    public void The_same_site_gives_the_same_bytes()
    {
        string Text() => Charts.TextOf(HtmlChart.Write, Charts.Of(ManyZones(5, "on mon, thu"), "2026-05-03", days: 5));
        var first = Text();

        var culture = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new CultureInfo("",
                useUserOverride: false)
            { NumberFormat = { NumberDecimalSeparator = ",", NegativeSign = "minus " } };
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
        var text = Charts.TextOf(SvgChart.Write, Charts.Of(site, ChartSpan.FromFirstWater(site, 1)!));
        var file = Path.Combine(Repository.Root, "docs/chart.svg");
        if (Environment.GetEnvironmentVariable("WATERSCRIPT_WRITE_PAGES") == "1") File.WriteAllText(file, text);

        Assert.Equal(text, File.ReadAllText(file).ReplaceLineEndings("\n"));
    }

    /// <summary>Zones one after the other in the night, a few minutes each; every fourth in cycles.</summary>
    private static string ManyZones(int count, string days)
    {
        var zones = Enumerable.Range(1, count)
            .Select(number =>
            string.Create(CultureInfo.InvariantCulture, $"zone z{number} \"Zone {number} with a long name of its own\" {{ output {number}; flow 12 L/min }}"));
        var steps = Enumerable.Range(1, count)
            .Select(number =>
            string.Create(CultureInfo.InvariantCulture, $"cycle 5 min soak 8 min {{ water z{number} for {(number % 4 == 0 ? 14 : 5)} min }}"));
        return $$"""
            site s { timezone Europe/Lisbon; effective 2026-01-01; location 39.6 N 8.1 W }
            supply main { flow 40 L/min }
            {{string.Join('\n', zones)}}
            schedule night { {{days}}; start at 21:00; steps { {{string.Join('\n', steps)}} } }
            """;
    }

    private static void AssertLegible(WaterScript.Documents.Charts.Chart chart) => Assert.All(Charts.Drawings(chart), drawing =>
    {
        Assert.All(new[] { drawing.Texts, drawing.Names }, texts => Assert.Empty(Overlaps([.. texts])));
        Assert.All(drawing.Texts, text =>
            Assert.True(text.X >= 0 && text.Right <= drawing.Width + 0.01 && text.Top >= 0 && text.Bottom <= drawing.Height, text.Content));
        Assert.All(drawing.Names.Where(name => name.Class == "name"), name => Assert.True(name.Right <= drawing.NameWidth, name.Content));
        Assert.All(drawing.Items, item =>
            Assert.Contains(drawing.Texts, text => text.Class == "time" && text.Bottom <= item.Whole.Y && item.Whole.Y - text.Bottom < 3));
        Assert.All(drawing.Items.SelectMany(item => item.Runs), run => Assert.True(run.Box.Width >= 1 && run.Box.X >= drawing.Left - 0.01));
    });

    private static IEnumerable<string> Overlaps(DrawnText[] texts) =>
        from first in Enumerable.Range(0, texts.Length)
        from second in Enumerable.Range(first + 1, texts.Length - first - 1)
        let a = texts[first]
        let b = texts[second]
        where a.X < b.Right && b.X < a.Right && a.Top < b.Bottom && b.Top < a.Bottom
        select $"{a.Content} | {b.Content}";

    private static IEnumerable<(long, decimal)> Corners(ChartCurve curve) => curve.Corners.Select(corner => (corner.At, corner.Value));

    private static IEnumerable<int> Elements(XElement root) =>
        root.Descendants().Attributes("data-run").Select(attribute => int.Parse(attribute.Value, CultureInfo.InvariantCulture));

    private static IEnumerable<int> Numbers(int count) => Enumerable.Range(1, count);

    /// <summary>The names of all elements and attributes, in order.</summary>
    private static string[] Shape(XDocument document) =>
        [.. document.Descendants().Select(element =>
            $"{element.Name.LocalName} {string.Join(' ', element.Attributes().Select(attribute => attribute.Name.LocalName))}")];
}
