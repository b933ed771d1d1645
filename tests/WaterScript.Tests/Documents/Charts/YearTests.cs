using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Xml.Linq;
using NodaTime;
using WaterScript.Agronomy;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Documents.Charts.Pages;
using WaterScript.Documents.Charts.Years;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Water;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Simulation;
using WaterScript.Tests.Timetables;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Documents.Charts;

/// <summary>Pictures of a year: their numbers are those of the timetable, and their words have room.</summary>
public class YearTests
{
    private const int MostBytes = 1_500_000;

    private const string Seasons = """
        site s { timezone Europe/Lisbon; effective 2026-01-01 }
        supply tap { flow 40 L/min }
        zone a { output 1; flow 10 L/min }
        zone b { output 2; flow 6 L/min }
        hold a from 2026-06-08 06:00 to 2026-06-10 18:00 because "fair"
        closed from 1 nov to 28 feb because "well is cleaned"
        restriction town "Town rule" { from 1 jul to 31 aug; allow between 20:00 and 08:00 }
        schedule s { every day; start at 05:00; steps { water a for 20 min } }
        schedule t { on mon; start at 21:00; steps { water b for 7 min } }
        """;

    [Theory]
    [MemberData(nameof(ExampleTests.Roots), MemberType = typeof(ExampleTests))]
    public void Totals_are_those_of_the_timetable(string path)
    {
        var site = Example.Read(path).Site!;
        AssertTotals(YearBuilder.Build(site, site.Effective));
    }

    [Fact]
    public void Totals_are_those_of_the_timetable_for_random_sites()
    {
        foreach (var seed in Enumerable.Range(0, Samples.Of(40)))
        {
            var source = RandomSource.Of(seed);
            if (RandomRunsTests.Read(source.Text, out _) is not { } site) continue;
            try
            {
                AssertTotals(YearBuilder.Build(site, source.From));
            }
            catch (WorkUsedUpException)
            {
                // Too much to expand is refused in words; the test of the command sees to that.
            }
        }
    }

    [Theory]
    [MemberData(nameof(ExampleTests.Roots), MemberType = typeof(ExampleTests))]
    public void A_page_of_an_example_is_small_has_every_night_and_words_with_room(string path)
    {
        var site = Example.Read(path).Site!;
        var year = WithNights(site);
        var text = TextOf(year);

        Assert.InRange(Encoding.UTF8.GetByteCount(text), 1, MostBytes);
        foreach (var width in new[] { 1504.0, 1044, 720, 336 })
        {
            var (svg, height) = YearDrawing.Draw(year, new PictureSizes(width));
            Assert.Empty(DrawnWords.Faults(svg, width, height));
            if (GroundDrawing.Draw(year, [.. GroundYear.Of(year)], new PictureSizes(width)) is { Length: > 0 } ground)
                Assert.Empty(DrawnWords.Faults(ground, width, (double)XElement.Parse(ground).Attribute("height")!));
        }

        using var data = JsonDocument.Parse(Between(text, "id=\"year-data\">", "</script>"));
        var days = data.RootElement.GetProperty("days");
        Assert.Equal(year.Days, days.GetArrayLength());
        var shown = data.RootElement.GetProperty("picture").GetProperty("nights").EnumerateArray().Select((night, index) => (night, index)).ToList();
        Assert.All(shown, each => Assert.Equal(each.index, each.night.GetProperty("id").GetInt32()));
        var runs = shown.Sum(each => each.night.GetProperty("rows").EnumerateArray().Sum(row => row[8].GetInt32()));
        // The last night goes on until the noon after the year.
        var first = CivilDate.DayNumberOf(site.Effective);
        var noon = ChartSpan.NoonOf(site.Effective.PlusYears(1), new ZoneClock(site.TimeZone));
        var all = Timetable.Of(site, new Horizon(site.Effective, site.Effective.PlusYears(1).PlusDays(2))).Runs().ToList();
        Assert.Equal(all.Count(run => run.Start < noon), runs);
        var held = new HeldWater(Timetable.Of(site, new Horizon(site.Effective, site.Effective.PlusYears(1).PlusDays(2))), 0, noon, int.MaxValue).All();
        Assert.Equal(held.Count(each => each.From < noon), shown.Sum(each => each.night.GetProperty("held").EnumerateArray().Sum(row => row[8].GetInt32())));
        var due = held.Select(each => each.Day - first).Concat(all.Select(run => run.Day - first)).ToHashSet();
        Assert.All(Enumerable.Range(0, year.Days), day => Assert.Equal(due.Contains(day), days[day][3].GetArrayLength() > 0));
    }

    [Theory]
    [MemberData(nameof(ExampleTests.Roots), MemberType = typeof(ExampleTests))]
    public void Its_nights_are_those_of_pictures_of_days(string path) => AssertNights(Example.Read(path).Site!, every: Samples.AreAll ? 9 : 90);

    [Theory]
    [InlineData("findings")]
    [InlineData("held")]
    [InlineData("mist")]
    [InlineData("twelve")]
    public void So_are_those_of_sites_that_need_what_examples_do_not_have(string name) =>
        AssertNights(ChartSites.Of(name).Site, every: Samples.AreAll ? 13 : 90);

    [Fact]
    public void A_day_that_a_hold_takes_opens_a_night_with_the_reason()
    {
        var site = Sites.Read(Seasons);
        using var data = JsonDocument.Parse(Between(TextOf(WithNights(site)), "id=\"year-data\">", "</script>"));

        var night = data.RootElement.GetProperty("picture").GetProperty("nights")[data.RootElement.GetProperty("days")[159][3][0].GetInt32()];

        Assert.Equal("1 run, 42 L; 1 run not watered, held: fair", night.GetProperty("words").GetString());
        Assert.Equal("held: fair", Assert.Single(night.GetProperty("held").EnumerateArray())[9].GetString());
    }

    /// <summary>The nights of a year beside pictures of one night each: all that is drawn, and every finding under its heading.</summary>
    private static void AssertNights(Site site, int every)
    {
        var nights = WithNights(site).Nights!;
        var picture = Charts.PictureOf(nights);
        foreach (var (index, day) in nights.Days.Index().Where(day => day.Index % every == 0 || (!day.Item.Held.IsEmpty && day.Index % (every / 3) == 0)))
        {
            // A picture of one night counts what began before it; of several, the night before does.
            if (day.Touching.Length > day.Runs.Length) continue;
            var alone = Charts.PictureOf(Charts.Of(site, new ChartSpan(day.Date, 1)));
            Assert.Equal(WordsOf(alone, alone.Nights[0]), WordsOf(picture, picture.Nights[index]));
        }
    }

    private static string WordsOf(Picture picture, Night night)
    {
        string Row(NightRow row) => $"{row with { Place = 0 }} {picture.Places[row.Place].Line}";
        string Spans(IEnumerable<NightSpan> spans) => string.Join(' ', spans);
        // Curves that stay within their limits are left out of a picture with too many of them.
        var panels = night.Panels.Where(panel => !panel.Beyond.IsEmpty).Select(panel =>
            $"{panel.Name} {panel.Note} {panel.LimitWords} {string.Join(' ', panel.Points)} {string.Join(' ', panel.Rushes)} {Spans(panel.Beyond)}");
        return string.Join('\n', new[] { night.Title, night.Words, $"{night.Length}", Spans(night.Dark), string.Join(' ', night.Sun) }
            .Concat(night.Rows.Select(Row)).Append("held").Concat(night.Held.Select(Row))
            .Concat(night.Devices.Select(device => $"{device.Name} {device.Total} {Spans(device.Spans)}"))
            .Concat(night.Forbidden.Select(each => $"{each.Name} {string.Join(' ', each.Zones)} {Spans(each.Spans)}"))
            .Concat(night.Findings.Select(each => $"{picture.Findings[each.Number - 1].Words} {each.Zone} {each.At}"))
            .Concat(night.Figures.Select(figures => $"{figures}")).Concat(panels));
    }

    private static YearChart WithNights(Site site) =>
        Compilation.YearOf(site, Linter.Check(site, CheckHorizon.Of(site)), site.Effective);

    [Fact]
    public void Holds_closed_seasons_seasons_of_restrictions_and_clock_changes_are_marked()
    {
        var year = YearBuilder.Build(Sites.Read(Seasons), new LocalDate(2026, 1, 1));

        Assert.Equal(365, year.Days);
        Assert.Equal(59 + 61, year.States.Count(state => state == DayState.Closed));
        // The hold begins after the watering of 8 June; 9 and 10 June are the days 159 and 160.
        Assert.Equal([159, 160], Enumerable.Range(0, 365).Where(day => year.States[day] == DayState.Held));
        Assert.Equal(
            ["closed to 28 Feb: well is cleaned", "hold 8 Jun to 10 Jun: fair", "Town rule: 1 Jul to 31 Aug", "closed from 1 Nov: well is cleaned"],
            year.Notes.Select(note => note.Words));
        Assert.Equal(["clocks forward 29 Mar", "clocks back 25 Oct"], year.Changes.Select(note => note.Words));
    }

    [Fact]
    public void A_day_says_what_it_comes_to()
    {
        var words = new YearWords(YearBuilder.Build(Sites.Read(Seasons), new LocalDate(2026, 1, 1)));

        // 20 min at 10 L/min and, on Mondays, 7 min at 6 L/min: worked out by hand. Day 61 is Tue 3 Mar, day 60 Mon 2 Mar.
        Assert.Equal(("1 run, 200 L", "a 200 L"), words.Day(61));
        Assert.Equal(("2 runs, 242 L", "a 200 L, b 42 L"), words.Day(60));
        Assert.Equal(("no water, closed", ""), words.Day(10));
        Assert.Equal(("no water, a hold takes watering", ""), words.Day(159));
    }

    [Fact]
    public void Zones_that_get_the_same_share_a_line_from_twenty_on()
    {
        var zones = string.Concat(Enumerable.Range(1, 24).Select(number => string.Create(
            CultureInfo.InvariantCulture, $"zone z{number} {{ output {number}; flow {(number == 7 ? 5 : 4)} L/min }}\n")));
        var steps = string.Join(" + ", Enumerable.Range(1, 24).Select(number => string.Create(CultureInfo.InvariantCulture, $"z{number}")));
        var site = Sites.Read($$"""
            site s { timezone Europe/Lisbon; effective 2026-01-01 }
            controller box { outputs 24 }
            {{zones}}
            schedule s { on mon; start at 05:00; steps { water {{steps}} for 5 min } }
            """);
        var groups = new YearWords(YearBuilder.Build(site, site.Effective)).Alike(fewest: 20);

        Assert.Equal([23, 1], groups.Select(group => group.Length));
        Assert.Equal("z7", groups[1][0].Name);
    }

    [Fact]
    public void The_soil_is_the_balance_of_the_checks_and_of_the_book()
    {
        var site = Example.Read("examples/school-field.water").Site!;
        var year = YearBuilder.Build(site, site.Effective);
        var climate = MonthWeather.YearOf(site);
        var grounds = GroundYear.Of(year).ToList();
        Assert.NotEmpty(grounds);

        foreach (var ground in grounds)
        {
            var months = ZoneBalance.Of(ground.Zones[0], GroundYear.DaysOf(year, ground.Zones[0]), GroundYear.HorizonOf(year), climate);
            Assert.Equal(months.Sum(month => month.StressDays), ground.Days.Count(day => day.End.IsStressed));
            Assert.Equal(months.Sum(month => month.Percolation), ground.Days.Sum(day => day.End.Percolation), 12);

            // FAO Irrigation and Drainage Paper 56, eq. 85 and 84, worked out again from what comes and is used.
            var depletion = 0m;
            foreach (var day in ground.Days)
            {
                depletion = depletion - day.Watering - day.Rain + day.End.Used + day.End.Percolation;
                Assert.Equal(Math.Clamp(depletion, 0, ground.Roots.Total), day.End.Depletion, 12);
                depletion = day.End.Depletion;
            }
        }
    }

    [Theory]
    [InlineData("""</title></text></style><script>alert(1)</script>""")]
    [InlineData("\" onmouseover=\"alert(1)")]
    [InlineData("'\u0007\uFFFE\uD83C")]
    public void A_label_is_text_and_nothing_else(string label)
    {
        var site = Sites.Read(Seasons);
        site = site with { Label = label, Zones = [.. site.Zones.Select(zone => zone with { Label = label })] };
        var text = TextOf(WithNights(site));

        Assert.Equal(2, text.Split("</script>").Length - 1);
        Assert.DoesNotContain("<script>alert(1)", text, StringComparison.Ordinal);
        Assert.DoesNotContain("onmouseover=\"", text, StringComparison.Ordinal);
    }

    private static void AssertTotals(YearChart year)
    {
        var totals = new ZoneTotals(year.Site);
        foreach (var run in Timetable.Of(year.Site, new Horizon(year.From, year.From.PlusYears(1))).Runs()) totals.Add(run);
        Assert.Equal(totals.ByZone().Sum(total => total.Litres ?? 0), year.Litres(0, year.Days), 6);
        Assert.Equal(totals.ByZone().Sum(total => total.Litres ?? 0), year.Months().Sum(month => year.Litres(month.From, month.Until)), 6);
        Assert.Equal(totals.ByZone().Select(total => total.Seconds), year.Site.Zones.Select(zone => year.SecondsOf(zone, 0, year.Days)));
        Assert.Equal(totals.Runs, year.Runs.Sum(runs => (long)runs));
    }

    private static string TextOf(YearChart year)
    {
        using var stream = new MemoryStream();
        YearPage.Write(year, new ChartOptions(), stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static string Between(string text, string start, string end)
    {
        var from = text.IndexOf(start, StringComparison.Ordinal) + start.Length;
        return text[from..text.IndexOf(end, from, StringComparison.Ordinal)];
    }
}
