using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using WaterScript.Answers.Diff.Pages;
using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Documents.Charts.Pages;
using WaterScript.Documents.Charts.Years;
using WaterScript.Tests.Cli;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Documents.Charts;
using WaterScript.Tests.Timetables;
using Xunit;

namespace WaterScript.Tests.Answers.Diff;

/// <summary>The page of a change: what goes, what comes, what moves, with sums that are those of the timetables.</summary>
public sealed class ChangePageTests : Workshop
{
    private const string Old = """
        site garden "Garden <b>" { timezone Europe/Lisbon; effective 2026-03-01 }
        supply tap { flow 12 L/min }
        zone lawn "Lawn" { output 1; flow 10 L/min }
        zone beds "Beds" { output 2; flow 6 L/min }
        schedule morning { on mon, wed, fri; start at 06:00; steps { water lawn for 20 min; water beds for 5 min } }
        """;

    private static string New => Old.Replace("for 20 min", "for 25 min", StringComparison.Ordinal)
        .Replace("mon, wed, fri", "mon, thu", StringComparison.Ordinal)
        .Replace("flow 6 L/min", "flow 14 L/min", StringComparison.Ordinal).Replace("zone beds", "zone borders", StringComparison.Ordinal)
        .Replace("water beds", "water borders", StringComparison.Ordinal);

    [Fact]
    public void A_week_of_both_stands_beside_the_sums_the_findings_and_the_lines()
    {
        Write("was.water", Old);
        Write("is.water", New);

        var result = Run("diff", "was.water", "is.water", "-o", "change.html");

        Assert.Equal((1, "", ""), (result.ExitCode, result.Output, result.Error));
        var page = XDocument.Parse(PageWithoutScripts()).Root!;
        var text = page.Value;

        // The lawn: 3 × 20 min on 156 or 157 days become 2 × 25 min, at 10 L/min; counted in the calendar of Mar 2026 to Feb 2027: 156 Mondays, Wednesdays
        // and Fridays are 31 200 L, 104 Mondays and Thursdays 26 000 L.
        Assert.Contains("31 200", text.Replace('\u00A0', ' '), StringComparison.Ordinal);
        Assert.Contains("26 000", text.Replace('\u00A0', ' '), StringComparison.Ordinal);
        Assert.Contains("new", text, StringComparison.Ordinal);
        Assert.Contains("supply tap gives 12.0", text, StringComparison.Ordinal);
        Assert.Contains("Garden <b>: what the change does", text, StringComparison.Ordinal);
        var lines = page.Descendants("span").Where(span => (string?)span.Attribute("class") is "gone" or "come").Select(span => span.Value).ToList();
        Assert.Equal(Old.Split('\n').Except(New.Split('\n')).Concat(New.Split('\n').Except(Old.Split('\n'))).Order(), lines.Order());
        Assert.Equal(["data:,"], page.Descendants().Attributes("href").Select(href => href.Value));
    }

    [Fact]
    public void What_is_the_same_what_goes_what_comes_and_what_moves_look_different()
    {
        var nights = NightsOf(Old, New);
        var monday = nights.Single(night => night.Lanes.Any(lane => lane.Runs.Any(run => run is { Old: not null, New: not null })));

        Assert.Equal(["Lawn", "Beds"], monday.Lanes.Select(lane => lane.Name));
        Assert.Equal(((64_800L, 66_000L), (64_800L, 66_300L)), (monday.Lanes[0].Runs[0].Old!.Value, monday.Lanes[0].Runs[0].New!.Value));
        Assert.Equal("2 runs moved or resized", monday.Words);
        Assert.Equal(["2 runs gone", "2 runs gone", "2 runs new"],
            nights.Select(night => night.Words).Where(words => words is "2 runs gone" or "2 runs new").Order(StringComparer.Ordinal));
        Assert.All(NightsOf(Old, Old).SelectMany(night => night.Lanes).SelectMany(lane => lane.Runs), run => Assert.True(run.IsSame));
    }

    [Fact]
    public void Hours_stand_once_and_what_is_folded_away_too()
    {
        var nights = DrawnNights(Old, New);

        Assert.True(nights.Count > 1);
        Assert.All(HeightsOf(nights[0], @"^\d\d:\d\d$").Take(3), y => Assert.Equal(12, y));
        Assert.True(HeightsOf(nights[0], @"^\d\d:\d\d$").Count > 2);
        Assert.All(nights.Skip(1), night => Assert.DoesNotContain(12, HeightsOf(night, @"^\d\d:\d\d$")));
        Assert.Equal(2, HeightsOf(nights[^1], "^[0-9½]+ h$").Count);
        Assert.All(nights.SkipLast(1), night => Assert.Empty(HeightsOf(night, "^[0-9½]+ h$")));
    }

    [Fact]
    public void Every_night_has_its_strip_of_day_and_night()
    {
        var old = Repository.Read("examples/terraces.water");

        Assert.All(DrawnNights(old, old.Replace("upper for 1 h", "upper for 45 min", StringComparison.Ordinal)), night => Assert.Single(
            night.Descendants("rect"), rect => (string?)rect.Attribute("class") == "dark"));
    }

    /// <summary>The nights of the first week as they are drawn at 1044 px.</summary>
    private List<XElement> DrawnNights(string old, string @new)
    {
        Write("was.water", old);
        Write("is.water", @new);
        Assert.Equal(1, Run("diff", "was.water", "is.water", "-o", "change.html").ExitCode);
        var week = XDocument.Parse(PageWithoutScripts()).Descendants("div").Single(div => (string?)div.Attribute("id") == "week");
        return [.. week.Descendants("div").Where(div => (string?)div.Attribute("class") == "drawing at-1044").Select(div => div.Element("svg")!)];
    }

    private static List<double> HeightsOf(XElement night, string pattern) => [.. night.Descendants("text")
        .Where(text => (string?)text.Attribute("class") == "s" && Regex.IsMatch(text.Value, pattern)).Select(text => (double)text.Attribute("y")!)];

    [Fact]
    public void Words_have_room_at_every_width()
    {
        Write("was.water", Repository.Read("examples/terraces.water"));
        Write("is.water", Repository.Read("examples/terraces.water").Replace("upper for 1 h", "upper for 45 min", StringComparison.Ordinal)
            .Replace("sunset + 30 min", "sunset + 1 h", StringComparison.Ordinal));
        Assert.Equal(1, Run("diff", "was.water", "is.water", "-o", "change.html").ExitCode);

        foreach (var drawing in XDocument.Parse(PageWithoutScripts()).Descendants("div")
            .Where(div => ((string?)div.Attribute("class") ?? "").StartsWith("drawing", StringComparison.Ordinal)).Elements("svg"))
        {
            Assert.Empty(DrawnWords.Faults(drawing.ToString(), double.Parse(drawing.Attribute("width")!.Value, CultureInfo.InvariantCulture),
                double.Parse(drawing.Attribute("height")!.Value, CultureInfo.InvariantCulture)));
        }
    }

    [BrowserFact]
    public void A_browser_finds_nothing_wrong_with_it()
    {
        Write("was.water", Old);
        Write("is.water", New);
        Assert.Equal(1, Run("diff", "was.water", "is.water", "-o", "change.html").ExitCode);
        Write("mist.water", Repository.Read("examples/nursery.water"));
        Write("more.water", Repository.Read("examples/nursery.water").Replace("start at 20:15", "start at 20:45", StringComparison.Ordinal));
        Assert.Equal(1, Run("diff", "mist.water", "more.water", "-o", "mist.html").ExitCode);

        Assert.Equal(("", "", 0), Browser.Look([PathOf("change.html"), PathOf("mist.html")]));
    }

    [Fact]
    public void Every_week_that_changes_can_be_chosen()
    {
        var (old, @new) = (YearOf(Old), YearOf(New));
        var (weeks, isCut) = ChangedWeek.OfYear(old, @new, old.From.PlusDays(-1), NewName);

        // Mondays to Fridays change all year: the nights from Sat 28 Feb 2026 to Sun 28 Feb 2027 are 52 weeks and a weekend, worked out by hand.
        Assert.False(isCut);
        Assert.Equal(52, weeks.Length);
        Assert.Equal(@new.Litres(0, 365) - old.Litres(0, 365), weeks.Sum(week => week.Difference));

        Write("was.water", Old);
        Write("is.water", Old + "\nclosed from 1 jun to 14 jun because \"fair\"\n");
        Run("diff", "was.water", "is.water", "-o", "change.html");
        var page = XDocument.Parse(PageWithoutScripts()).Root!;

        // Worked out by hand: in each of two weeks three mornings of 230 L go; the weeks begin on the night before Mon 1 Jun.
        Assert.Equal(
            ["from Sun 31 May 2026: 6 runs gone, −690 L", "from Sun 7 Jun 2026: 6 runs gone, −690 L"],
            page.Descendants("option").Select(option => option.Value.Replace('\u00A0', ' ')));
    }

    [Fact]
    public void Waterings_that_repeat_alike_are_one_row_of_the_data()
    {
        ImmutableArray<ChangedRun> runs =
            [.. Enumerable.Range(0, 30).Select(index => new ChangedRun((index * 480, (index * 480) + 12), (index * 480, (index * 480) + 14))),
            new ChangedRun(null, (20_000, 20_100)), new ChangedRun((30_000, 30_100), null)];

        var rows = ChangeData.Rows(runs).ToList();

        Assert.Equal([(480L, 30), (0L, 1), (0L, 1)], rows.Select(row => (row.Every, row.Times)));
        Assert.Equal(runs, rows.SelectMany(row => Enumerable.Range(0, row.Times).Select(index => row.First.Later(index * row.Every))));
    }

    [Fact]
    public void What_moves_far_is_another_watering()
    {
        const string text = "site s { timezone Europe/Lisbon; effective 2026-03-01 }\nzone a { output 1 }\n" +
            "schedule s { every day; start at TIMES; steps { water a for 10 min } }";
        string With(string times) => text.Replace("TIMES", times, StringComparison.Ordinal);

        string WordsOf(string old, string @new) =>
            ChangedNight.Of(Charts.Of(With(old), "2026-03-02"), Charts.Of(With(@new), "2026-03-02"), name => name)[0].Words;

        Assert.Equal("1 run moved or resized", WordsOf("21:00", "23:00"));
        Assert.Equal("1 run new, 1 run gone", WordsOf("21:00", "09:00"));
        Assert.Equal("1 run new, 2 runs moved or resized", WordsOf("22:00, 04:00", "13:00, 22:30, 04:30"));
    }

    [BrowserFact]
    public void The_script_draws_as_the_program_does()
    {
        var (old, @new) = (YearOf(Repository.Read("examples/nursery.water")),
            YearOf(Repository.Read("examples/nursery.water").Replace("start at 20:15", "start at 20:45", StringComparison.Ordinal)));
        var (weeks, _) = ChangedWeek.OfYear(old, @new, old.From.PlusDays(-1), name => name);
        var week = weeks[^1];
        var figures = new WaterFigures(@new.Site);
        var script = Write("script.js", PageParts.ChangeScript);
        var data = Write("data.json", ChangeData.Of([week], [], figures));

        var (output, error, status) = Browser.Run("draw-change.mjs", [script, data, .. Widths.Select(width => width.ToString(CultureInfo.InvariantCulture))]);

        Assert.Equal(("", 0), (error, status));
        Assert.Equal(Widths.SelectMany(width => DrawnAt(week, figures, width)), JsonSerializer.Deserialize<string[]>(output)!);
    }

    private static readonly int[] Widths = [1504, 1044, 720, 336];

    private static IEnumerable<string> DrawnAt(ChangedWeek week, WaterFigures figures, int width)
    {
        var sizes = new PictureSizes(width);
        var most = week.Nights.Max(night => night.Length);
        List<double[]> Busy() => [.. week.Nights.SelectMany(night => night.Lanes).SelectMany(lane => lane.Runs).SelectMany(run => new[] { run.Old, run.New })
            .OfType<(long From, long Until)>().Select(run => new double[] { Math.Max(0, run.From), Math.Min(most, run.Until) })];
        var wet = week.Nights.Zip(week.Clocks).Where(night => !night.First.Lanes.IsEmpty).ToList();
        return wet.Select((night, index) => ChangeDrawing.Draw(night.First, night.Second, new TimeAxis(Folding.Pieces(Busy(), sizes, most), sizes, most),
            sizes, figures, new ChangeOptions(index == 0, index == wet.Count - 1)));
    }

    private static YearChart YearOf(string text)
    {
        var site = Sites.Read(text);
        return YearBuilder.Build(site, site.Effective);
    }

    private static string NewName(string name) => name == "beds" ? "borders" : name;

    private string PageWithoutScripts() =>
        Regex.Replace(Read("change.html").Replace("<!DOCTYPE html>\n", "", StringComparison.Ordinal), "<script.*?</script>", "", RegexOptions.Singleline);

    [Theory]
    [InlineData("diff was.water is.water -o change.html --only water", "a page shows all that changes; leave out --only")]
    [InlineData("diff /dev/null is.water -o change.html", "a page needs both versions")]
    [InlineData("diff HEAD~1..HEAD . -o change.html", "a page shows two versions of one site: diff OLD NEW -o PATH.html")]
    public void What_cannot_be_a_page_says_why(string line, string why)
    {
        Write("was.water", Old);
        Write("is.water", New);

        var result = RunLine(line);

        Assert.Equal(2, result.ExitCode);
        Assert.Contains(why, result.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(PathOf("change.html")));
    }

    private static ImmutableArray<ChangedNight> NightsOf(string old, string @new)
    {
        const string from = "2026-03-01";
        return ChangedNight.Of(Charts.Of(old, from, days: 7), Charts.Of(@new, from, days: 7), name => name == "beds" && @new != old ? "borders" : name);
    }
}
