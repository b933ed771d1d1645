using System.Globalization;
using System.Text;
using NodaTime;
using WaterScript.Answers.Diff;
using WaterScript.Binding;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Documents.Timetables;
using WaterScript.Documents.Timetables.Deployed;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Tests.Documentation;
using WaterScript.Text;
using WaterScript.Timetables;
using Xunit;
using YamlDotNet.RepresentationModel;
using YamlNode = YamlDotNet.RepresentationModel.YamlNode;

namespace WaterScript.Tests.Documents.Timetables.Deployed;

/// <summary>What is compiled as YAML can be read again and compared with a site.</summary>
public class DeployedTimetableTests
{
    private const string Garden = """
        site garden "Garden" { timezone Europe/Lisbon; effective 2026-03-01 }
        zone lawn "Lawn" { output 1; flow 10 L/min }
        zone beds "Beds" { output 2; flow 7 gpm }
        zone pots { output 3 }
        schedule morning { on mon, wed, fri; start at 06:00; steps { water lawn for 20 min; water beds for 5 min } }
        schedule evening { every day; start at sunset; steps { repeat 3 times { water pots for 2 min; pause 10 min } } }
        schedule once { manual; steps { water lawn for 5 min } }

        """;

    private static readonly Horizon Dates = new(new LocalDate(2026, 3, 20), new LocalDate(2026, 6, 1));

    public static TheoryData<string, string> Edits => new()
    {
        { "06:00", "05:30" },
        { "20 min", "25 min" },
        { "on mon, wed, fri", "on mon, wed" },
        { "schedule morning", "schedule early" },
        { "flow 10 L/min", "flow 12 L/min" },
        { "3 times", "4 times" },
        { "\"Lawn\"", "\"Grass\"" },
        { "zone pots", "zone jars" },
        { "schedule once { manual; steps { water lawn for 5 min } }", "" },
        { "schedule once", "schedule noon { every day; start at 12:00; steps { water beds for 1 min } }\nschedule once" },
        { "schedule morning {", "hold from 2026-05-04 for 3 days because \"works\"\nschedule morning {" },
    };

    [Theory]
    [MemberData(nameof(ExampleOutputTests.Roots), MemberType = typeof(ExampleOutputTests))]
    public void What_an_example_compiles_to_is_what_it_says(string path)
    {
        var site = Example.Read(path).Site!;
        var timetable = Timetable.Of(site, Horizon.DaysFrom(site.Effective, 40));
        using var deployed = Open(Yaml(timetable));
        var changes = WateringChanges.Of(deployed, site);
        Assert.Equal((false, false, 0, 0), (changes.IsChanged, changes.IsDescriptionChanged, changes.Schedules.Length, changes.Zones.Length));
        Assert.Equal(timetable.Horizon, changes.Horizon);
        Assert.Equal(AuditedHashes(timetable), deployed.HashesOfSwitchings().Select(list => list.Hash));
    }

    [Fact]
    public void An_opening_may_have_more_runs_than_a_pass()
    {
        const string mist = """
            site mist { timezone Europe/Lisbon; effective 2026-03-01 }
            zone fern { output 1 }
            schedule fog { every 3 days; start at 00:00, 14:00; steps { repeat 50400 times { water fern for 1 s } } }

            """;
        var site = Read(mist).Site!;
        var timetable = Timetable.Of(site, Horizon.DaysFrom(site.Effective, 2));
        Assert.Single(timetable.Openings());
        Assert.True(timetable.Runs().Count() > Limits.RunsPerPass);

        using var deployed = Open(Yaml(timetable));
        Assert.False(WateringChanges.Of(deployed, site).IsChanged);
    }

    [Fact]
    public void One_from_before_single_waterings_and_the_sun_were_in_it_is_read_as_well()
    {
        var site = Example.Read("examples/sports-ground.water").Site!;
        var yaml = Yaml(Timetable.Of(site, Horizon.DaysFrom(site.Effective, 200)));
        Assert.Contains("\ntaken_runs:\n", yaml, StringComparison.Ordinal);
        Assert.Contains("\nsun:\n", yaml, StringComparison.Ordinal);
        var older = yaml[..yaml.IndexOf("\ntaken_runs:", StringComparison.Ordinal)] + yaml[yaml.IndexOf("\ntotals:", StringComparison.Ordinal)..];

        foreach (var text in new[] { yaml, older })
        {
            using var deployed = Open(text);
            Assert.False(WateringChanges.Of(deployed, site).IsChanged);
        }
    }

    [Theory]
    [MemberData(nameof(ExampleOutputTests.Roots), MemberType = typeof(ExampleOutputTests))]
    public void Another_reader_reads_the_same(string path)
    {
        var site = Example.Read(path).Site!;
        var yaml = Yaml(Timetable.Of(site, Horizon.DaysFrom(site.Effective, 10)));
        var stream = new YamlStream();
        stream.Load(new StringReader(yaml));
        var root = (YamlMappingNode)stream.Documents.Single().RootNode;
        using var deployed = Open(yaml);
        Assert.Equal(Texts(root["zones"], "name"), deployed.Site.Zones.Select(zone => zone.Name));
        Assert.Equal(Texts(root["zones"], "label"), deployed.Site.Zones.Select(zone => zone.Label ?? ""));
        Assert.Equal(
            Texts(root["zones"], "flow_l_per_min"),
            deployed.Site.Zones.Select(zone => zone.LitresPerMinute?.ToString(CultureInfo.InvariantCulture) ?? ""));
        Assert.Equal(Texts(root["schedules"], "name"), deployed.Site.Schedules.Select(schedule => schedule.Name));
        var runs = ((YamlSequenceNode)root["runs"]).Select(run => (
            long.Parse(Text(run, "run"), CultureInfo.InvariantCulture), Seconds(run, "from"), Seconds(run, "to"),
            Text(run, "zone"), Text(run, "schedule"), Text(run, "day"), Text(run, "start"), Text(run, "pass"),
            Seconds(run, "pass_start")));
        Assert.Equal(runs, deployed.Runs().Select(run => (
            run.Number, run.Start, run.End,
            deployed.Site.Zones[run.Zone].Name, deployed.Site.Schedules[run.Schedule].Name, $"{new LocalDate(1970, 1, 1).PlusDays(run.Day):uuuu-MM-dd}",
            $"{run.StartNumber}", $"{run.Pass}", run.PassStart)));
        deployed.Finish();
    }

    [Theory]
    [MemberData(nameof(Edits))]
    public void An_edit_is_reported_as_between_two_files(string was, string now)
    {
        var (old, @new) = (Checked(Garden), Checked(Garden.Replace(was, now, StringComparison.Ordinal)));
        var expected = WateringChanges.Of(old, @new, Dates);
        using var deployed = Open(Yaml(Timetable.Of(old.Reading.Site!, Dates)));
        var changes = WateringChanges.Of(deployed, @new.Reading.Site!);
        Assert.NotEqual(SiteHash.Of(old.Reading.Site!), SiteHash.Of(@new.Reading.Site!));
        Assert.Equal((expected.IsChanged, expected.IsDescriptionChanged, expected.Horizon), (changes.IsChanged, changes.IsDescriptionChanged, changes.Horizon));
        Assert.Equal(expected.Schedules.Select(Told), changes.Schedules.Select(Told));
        Assert.Equal(expected.Zones.Select(Rounded), changes.Zones.Select(Rounded));
    }

    [Fact]
    public void The_timetable_of_one_controller_is_compared_with_what_that_one_waters()
    {
        var text = Garden.Replace("zone lawn", "controller box { outputs 8 }\ncontroller shed { outputs 8 }\nzone lawn", StringComparison.Ordinal)
            .Replace("output 1", "output 1 of box", StringComparison.Ordinal)
            .Replace("output 2", "output 2 of shed", StringComparison.Ordinal)
            .Replace("output 3", "output 3 of box", StringComparison.Ordinal);
        var site = Checked(text).Reading.Site!;
        var yaml = Yaml(Timetable.Of(site, Dates), site.Controllers[0]);
        using var same = Open(yaml);
        Assert.False(WateringChanges.Of(same, site).IsChanged);
        using var other = Open(yaml);
        var otherEdit = Checked(text.Replace("5 min } }\nschedule evening", "6 min } }\nschedule evening", StringComparison.Ordinal)).Reading.Site!;
        Assert.False(WateringChanges.Of(other, otherEdit).IsChanged);
        using var own = Open(yaml);
        var ownEdit = Checked(text.Replace("20 min", "21 min", StringComparison.Ordinal)).Reading.Site!;
        Assert.Equal("lawn", Assert.Single(WateringChanges.Of(own, ownEdit).Zones).Name);
    }

    [Fact]
    public void Passes_of_the_date_before_the_first_are_read()
    {
        var site = Checked(
            Garden + "schedule night { every day; start at 22:00; repeat every 1 h until 03:30 next day; steps { water pots for 1 min } }\n").Reading.Site!;
        using var deployed = Open(Yaml(Timetable.Of(site, Dates)));
        Assert.False(WateringChanges.Of(deployed, site).IsChanged);
        using var again = Open(Yaml(Timetable.Of(site, Dates)));
        Assert.Contains(again.Runs(), run => run.Day == CivilDate.DayNumberOf(Dates.From) - 1);
    }

    [Theory]
    [InlineData("")]
    [InlineData("zone lawn { output 1 }")]
    public void A_site_that_waters_nothing_is_read(string parts)
    {
        var site = Checked("site garden { timezone Europe/Lisbon; effective 2026-03-01 }\n" + parts + "\n").Reading.Site!;
        using var deployed = Open(Yaml(Timetable.Of(site, Dates)));
        var changes = WateringChanges.Of(deployed, site);
        Assert.Equal((false, false), (changes.IsChanged, changes.IsDescriptionChanged));
        using var again = Open(Yaml(Timetable.Of(site, Dates)));
        Assert.True(WateringChanges.Of(again, Checked(Garden).Reading.Site!).IsChanged);
    }

    /// <summary>What a change is, but for how its rules are written, which a timetable does not have.</summary>
    private static string Told(ScheduleChange change) =>
        $"{change.Kind} {change.Name} {(change.Kind == ScheduleChangeKind.Renamed ? change.Old!.Name : "")} {change.First} " +
        string.Join("; ", change.Turns
            .Where(turn => change.Kind != ScheduleChangeKind.Changed
                || turn.What is not ("days" or "start" or "season" or "except" or "repeat" or "cut off" or "scale" or Turn.Step or Turn.Shares))
            .Where(_ => change.Kind != ScheduleChangeKind.Removed).Select(turn => $"{turn.What} {turn.Old} {turn.New}"));

    private static string Rounded(ZoneChange change) => $"{change.Name} {Rounded(change.Old)} {Rounded(change.New)}";

    private static string Rounded(WeeklyWater? water) => string.Create(CultureInfo.InvariantCulture, $"{water?.Seconds} {water?.Litres:0.00}");

    private static IEnumerable<string?> AuditedHashes(Timetable timetable) =>
        (timetable.Site.Controllers.Length > 1 ? [null, .. timetable.Site.Controllers] : new Controller?[] { null })
            .Select(controller => TimetableCsv.HashOfSwitchings(timetable, controller));

    private static IEnumerable<string> Texts(YamlNode list, string key) =>
        ((YamlSequenceNode)list).Select(item =>
            ((YamlMappingNode)item).Children.TryGetValue(key, out var value) ? ((YamlScalarNode)value).Value! : "");

    private static string Text(YamlNode map, string key) => ((YamlScalarNode)((YamlMappingNode)map)[key]).Value!;

    private static long Seconds(YamlNode map, string key) => DateTimeOffset.Parse(Text(map, key), CultureInfo.InvariantCulture).ToUnixTimeSeconds();

    private static CheckedSite Checked(string text) => CheckedSite.Of("garden.water", Read(text));

    private static SiteReading Read(string text) =>
        SiteReader.Read(SourceText.From("garden.water", text), "garden.water", new MemoryFiles(new Dictionary<string, string>()), DateTimeZoneProviders.Tzdb);

    private static DeployedTimetable Open(string yaml) => DeployedTimetable.Open(new StringReader(yaml), "deployed.yaml", DateTimeZoneProviders.Tzdb);

    private static string Yaml(Timetable timetable, Controller? controller = null)
    {
        using var output = new MemoryStream();
        TimetableOutput.Write(timetable, OutputFormat.Yaml, new OutputOptions { Controller = controller }, output);
        return Encoding.UTF8.GetString(output.ToArray());
    }
}
