using System.Text;
using NodaTime;
using WaterScript.Tests.Cli;
using WaterScript.Tests.Documentation;
using Xunit;

namespace WaterScript.Tests;

/// <summary>Sources in; findings, a timetable and documents out, the same as the command line gives.</summary>
public sealed class CompilationTests : Workshop
{
    private static readonly Compilation Balcony = Compilation.Of("examples/balcony.water", Repository.Read);

    [Fact]
    public void A_site_says_what_it_has()
    {
        var site = Balcony.Site!;
        Assert.Equal(
            ("Balcony", "balcony", "Balcony", "Europe/Vienna", new LocalDate(2026, 4, 15)),
            (Balcony.Name, site.Name, site.Label, site.TimeZone.Id, site.Effective));
        Assert.Equal(["box"], site.Controllers.Select(controller => controller.Name));
        Assert.Equal(
            [("tomatoes", "Tomato tubs", "box", 1), ("herbs", "Herb pots", "box", 2)],
            site.Zones.Select(zone => (zone.Name, zone.Label, zone.Controller, zone.Output)));
        Assert.Equal([("tomatoes", false), ("herbs", false)], site.Schedules.Select(schedule => (schedule.Name, schedule.IsManual)));
        Assert.Equal(["examples/balcony.water"], Balcony.Files.AsEnumerable());
        Assert.False(Balcony.HasErrors);
        Assert.Equal(site.Effective, Balcony.CheckedFrom);
        Assert.True(Balcony.CheckedUntil >= site.Effective.PlusYears(2));
    }

    /// <summary>Two herbs of a week, by hand: 15 April 2026 is a Wednesday, and the clocks of Vienna are two hours ahead in summer.</summary>
    [Fact]
    public void A_timetable_has_its_first_date_and_not_its_last()
    {
        var timetable = Balcony.Timetable(new(2026, 4, 17), new(2026, 4, 21));
        Assert.Equal((new LocalDate(2026, 4, 17), new LocalDate(2026, 4, 21)), (timetable.From, timetable.Until));
        var run = Assert.Single(timetable.Runs());
        Assert.Equal(
            (1, "herbs", "herbs", new LocalDate(2026, 4, 17), "1", null),
            (run.Number, run.Zone, run.Schedule, run.Date, run.Step, run.Injector));
        Assert.Equal(new LocalDateTime(2026, 4, 17, 7, 30).InZoneStrictly(Balcony.Site!.TimeZone), run.Start);
        Assert.Equal(Duration.FromMinutes(8), run.End - run.Start);
        var opening = Assert.Single(timetable.Openings());
        Assert.Equal(
            (1, "box", 2, "herbs", null, run.Start, run.End),
            (opening.Number, opening.Controller, opening.Output, opening.Zone, opening.Device, opening.Start, opening.End));
        Assert.Equal([1], opening.Runs.AsEnumerable());
        Assert.Equal(
            [(run.Start, true, 2, 1L, "box", "herbs"), (run.End, false, 2, 1L, "box", "herbs")],
            timetable.Switchings()
                .Select(switching => (switching.Time, switching.IsOn, switching.Output, switching.Opening, switching.Controller, switching.Zone)));
        Assert.Equal(2, Balcony.Timetable(new(2026, 4, 17), new(2026, 4, 22)).Runs().Count());
    }

    [Fact]
    public void Without_dates_a_timetable_is_a_year_from_the_first_date() =>
        Assert.Equal((new LocalDate(2026, 4, 15), new LocalDate(2027, 4, 15)), (Balcony.Timetable().From, Balcony.Timetable().Until));

    [Fact]
    public void One_pass_is_made_whatever_the_calendar_says()
    {
        var run = Assert.Single(Balcony.OnePass("herbs", new(2026, 1, 1, 9, 30, 0)).Runs());
        Assert.Equal(new LocalDateTime(2026, 1, 1, 9, 30), run.Start.LocalDateTime);
    }

    [Theory]
    [InlineData("yaml", "compile", "--to", "yaml", "--from", "2026-05-01", "--days", "30")]
    [InlineData("json", "compile", "--to", "json", "--from", "2026-05-01", "--days", "30", "--controller", "box")]
    [InlineData("csv", "compile", "--to", "csv", "--from", "2026-05-01", "--days", "30", "--only", "switchings")]
    [InlineData("icalendar", "compile", "--to", "icalendar", "--from", "2026-05-01", "--days", "30", "--stamp", "2026-03-01T12:00:00Z")]
    [InlineData("open calendar", "compile", "--to", "icalendar")]
    [InlineData("report", "check", "--report", "json")]
    public void A_document_has_the_bytes_of_the_command_line(string document, params string[] arguments)
    {
        Write("balcony.water", Repository.Read("examples/balcony.water"));
        var balcony = Compilation.Of("balcony.water", _ => Repository.Read("examples/balcony.water"));
        var timetable = balcony.Timetable(new(2026, 5, 1), new(2026, 5, 31));
        var written = Written(stream =>
        {
            switch (document)
            {
                case "yaml": timetable.WriteYaml(stream); break;
                case "json": timetable.WriteJson(stream, controller: "box"); break;
                case "csv": timetable.WriteCsv(stream, TimetableRows.Switchings); break;
                case "icalendar": timetable.WriteICalendar(stream, Instant.FromUtc(2026, 3, 1, 12, 0)); break;
                case "open calendar": balcony.Timetable().WriteICalendar(stream); break;
                default: balcony.WriteJsonReport(stream); break;
            }
        });
        Assert.Equal(Run([arguments[0], "balcony.water", .. arguments[1..]]).Output, written);
    }

    [Theory]
    [InlineData("chart.svg")]
    [InlineData("chart.html")]
    public void A_chart_has_the_bytes_of_the_command_line(string name)
    {
        Write("balcony.water", Repository.Read("examples/balcony.water"));
        Assert.Equal(0, Run("chart", "balcony.water", "-o", name, "--days", "2").ExitCode);
        // A page names the file that it shows.
        var balcony = Compilation.Of("balcony.water", _ => Repository.Read("examples/balcony.water"));
        var written = Written(stream =>
        {
            if (name.EndsWith("svg", StringComparison.Ordinal)) balcony.WriteSvgChart(stream, days: 2);
            else balcony.WriteHtmlChart(stream, days: 2);
        });
        Assert.Equal(Read(name), written);
    }

    [Fact]
    public void A_finding_says_its_place_and_its_fix()
    {
        var text = Repository.Read("examples/balcony.water").Replace("water herbs for", "water herb for", StringComparison.Ordinal);
        var compilation = Compilation.Of("a/balcony.water", _ => text);
        var finding = Assert.Single(compilation.Findings);
        Assert.Equal(("unknown-name", FindingSeverity.Error), (finding.Rule, finding.Severity));
        Assert.Equal(
            ("a/balcony.water", "herb", text.IndexOf("herb for", StringComparison.Ordinal), 4),
            (finding.Place.Path, finding.Place.Text, finding.Place.Offset, finding.Place.Length));
        Assert.Equal((finding.Place.Line, finding.Place.Column + 4), (finding.Place.EndLine, finding.Place.EndColumn));
        var line = 1 + text[..finding.Place.Offset].Count(letter => letter == '\n');
        Assert.Equal($"a/balcony.water:{line}:17: error: {finding.Heading} [unknown-name]", finding.ToString());
        var edit = Assert.Single(finding.Fix!.Edits);
        Assert.Equal("herbs", edit.Replacement);
        Assert.Equal(finding.Place.Offset, edit.Place.Offset);
        Assert.Null(compilation.CheckedFrom);
        Assert.True(compilation.HasErrors);
    }

    [Fact]
    public void Included_files_are_asked_for_by_their_path_from_the_root_folder()
    {
        var text = Repository.Read("examples/balcony.water");
        var asked = new List<string>();
        var compilation = Compilation.Of("sites/balcony.water", path =>
        {
            asked.Add(path);
            return path switch
            {
                "sites/balcony.water" => text + "\ninclude \"../parts/valves.water\"\ninclude \"none.water\"\n",
                "parts/valves.water" => "",
                _ => null,
            };
        });
        Assert.Equal(["sites/balcony.water", "parts/valves.water", "sites/none.water"], asked);
        Assert.Equal(["sites/balcony.water", "parts/valves.water"], compilation.Files.AsEnumerable());
        Assert.Equal(["include-missing"], compilation.Findings.Where(finding => finding.Severity == FindingSeverity.Error).Select(finding => finding.Rule));
    }

    [Fact]
    public void A_layout_is_itself_and_keeps_a_byte_order_mark()
    {
        const string Laid = "\uFEFFsupply tap { flow 6 L/min }\n";
        Assert.Equal(Laid, Compilation.Format("\uFEFFsupply   tap {flow 6 L/min}\n"));
        Assert.Equal(Laid, Compilation.Format(Laid));
        Assert.Null(Compilation.Format("supply {"));
    }

    private static string Written(Action<Stream> write)
    {
        using var stream = new MemoryStream();
        write(stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }
}
