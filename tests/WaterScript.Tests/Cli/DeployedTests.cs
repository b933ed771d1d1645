using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>A timetable that is deployed, in place of the old site of <c>diff</c> and of the site of <c>audit</c>.</summary>
public sealed class DeployedTests : Workshop
{
    private const string Log =
        "time,zone,do\n2026-06-01T06:00:00+01:00,lawn,open\n2026-06-01T06:10:00+01:00,lawn,close\n"
        + "2026-06-01T06:10:00+01:00,beds,open\n2026-06-01T06:15:00+01:00,beds,close\n";

    public DeployedTests()
    {
        Write("garden.water", Good);
        Assert.Equal("", RunLine("compile garden.water --to yaml --from 2026-06-01 --days 30 -o deployed.yaml").Error);
    }

    [Fact]
    public void What_is_deployed_is_what_the_file_says()
    {
        var result = RunLine("diff deployed.yaml garden.water");
        Assert.Equal(
            ("Garden: no change in the watering. Compared 1 Jun 2026 to 30 Jun 2026.\n", "", 0),
            (result.Output, result.Error, result.ExitCode));
    }

    [Fact]
    public void A_change_since_is_reported_for_the_dates_that_are_deployed()
    {
        Write("new.water", Good.Replace("10 min", "12 min", StringComparison.Ordinal));
        var result = RunLine("diff deployed.yaml new.water");
        Assert.Equal(
            """
            Garden: the watering changes. Compared 1 Jun 2026 to 30 Jun 2026; first change Mon 1 Jun 2026.
            morning:  lawn, beds 10 min → 12 min
            Per week: lawn 700 → 840 L (+20 %), beds 1 h 10 min → 1 h 24 min (+20 %)

            """,
            result.Output,
            ignoreLineEndingDifferences: true);
        var files = RunLine("diff garden.water new.water --from 2026-06-01 --until 2026-07-01").Output;
        Assert.Equal(files.Replace(", new.water:4", "", StringComparison.Ordinal), result.Output);
        Assert.Equal(1, RunLine("diff deployed.yaml new.water --report json").ExitCode);
    }

    [Fact]
    public void Other_time_zone_data_is_said()
    {
        if (!File.Exists("/usr/share/zoneinfo/tzdata.zi")) return;
        var older = File.ReadLines("/usr/share/zoneinfo/tzdata.zi").First()["# version ".Length..];
        var version = NodaTime.TimeZones.TzdbDateTimeZoneSource.Default.TzdbVersion;
        if (older == version) return;
        RunLine("compile garden.water --to yaml --from 2026-06-01 --days 30 --tzdata system -o older.yaml");
        var result = RunLine("diff older.yaml garden.water");
        Assert.Contains($"Time zones: data {older} → {version}\n", result.Output, StringComparison.Ordinal);
        Assert.Equal(("", 0), (result.Error, result.ExitCode));
        Assert.Contains($"\"old_time_zone_data\": \"{older}\"", RunLine("diff older.yaml garden.water --report json").Output, StringComparison.Ordinal);
    }

    /// <summary>From 2026 on British Columbia keeps −07:00 all year (the time-zone database's news of 2026): 06:00 is 14:00 in UTC before, 13:00 now.</summary>
    [Fact]
    public void What_other_rules_of_a_time_zone_move_is_said()
    {
        if (!File.Exists("/usr/share/zoneinfo/tzdata.zi")) return;
        Write("coast.water", Good.Replace("Europe/Lisbon", "America/Vancouver", StringComparison.Ordinal));
        RunLine("compile coast.water --to yaml --from 2026-10-20 --days 30 --tzdata system -o older.yaml");
        var vancouver = NodaTime.DateTimeZoneProviders.Tzdb["America/Vancouver"].GetUtcOffset(NodaTime.Instant.FromUtc(2026, 11, 10, 12, 0));
        if (!Read("older.yaml").Contains("2026-11-10T06:00:00-08:00", StringComparison.Ordinal) || vancouver.Seconds != -7 * 3_600) return;
        var result = RunLine("diff older.yaml coast.water");
        var said = string.Join(' ', result.Output.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains("; America/Vancouver: from Sun 1 Nov 2026 all starts 1 h earlier in UTC", said, StringComparison.Ordinal);
        Assert.Equal(("", 1), (result.Error, result.ExitCode));
        // Where something else changes too, nothing is said of all.
        Write("other.water", Read("coast.water").Replace("10 min", "12 min", StringComparison.Ordinal));
        Assert.DoesNotContain("in UTC", RunLine("diff older.yaml other.water").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void It_may_come_from_standard_input_and_so_may_a_site()
    {
        var bytes = File.ReadAllBytes(PathOf("deployed.yaml"));
        var deployed = WaterscriptProgram.Run(Folder, bytes, [], "diff", "-", "garden.water");
        Assert.Equal((RunLine("diff deployed.yaml garden.water").Output, "", 0), (deployed.Output, deployed.Error, deployed.ExitCode));
        var withMark = WaterscriptProgram.Run(Folder, [0xEF, 0xBB, 0xBF, .. bytes], [], "diff", "-", "garden.water");
        Assert.Equal((deployed.Output, ""), (withMark.Output, withMark.Error));
        var site = WaterscriptProgram.Run(Folder, File.ReadAllBytes(PathOf("garden.water")), [], "diff", "-", "garden.water");
        Assert.Equal((RunLine("diff garden.water garden.water").Output, "", 0), (site.Output, site.Error, site.ExitCode));
        var audited = WaterscriptProgram.Run(Folder, File.ReadAllBytes(PathOf("garden.water")), [], "audit", "-", WriteLog());
        Assert.Equal((RunLine("audit garden.water log.csv").Output, ""), (audited.Output, audited.Error));
        var nothing = WaterscriptProgram.Run(Folder, [], [], "diff", "-", "garden.water");
        Assert.Equal(2, nothing.ExitCode);
    }

    [Theory]
    [InlineData("")]
    [InlineData(" --report json")]
    [InlineData(" --report markdown --tolerance 400")]
    public void A_log_is_audited_against_it_as_against_the_file(string options)
    {
        WriteLog();
        var file = RunLine("audit garden.water log.csv" + options);
        var deployed = RunLine("audit deployed.yaml log.csv" + options);
        Assert.Equal((file.Output, "", file.ExitCode), (deployed.Output, deployed.Error, deployed.ExitCode));
    }

    [Fact]
    public void A_pass_after_midnight_is_meant_for_the_date_before_the_log()
    {
        Write("night.water", Good + "schedule night { every day; start at 22:00; repeat every 2 h for 3 passes; steps { water lawn for 10 min } }\n");
        Write("log.csv", "time,zone,do\n2026-06-09T00:00:00+01:00,lawn,open\n2026-06-09T00:10:00+01:00,lawn,close\n2026-06-09T02:15:00+01:00,beds,open\n");
        RunLine("compile night.water --to yaml --from 2026-06-01 --days 30 -o night.yaml");
        var file = RunLine("audit night.water log.csv");
        Assert.Contains("Mon 8 Jun 2026 night: 1 of 2 done, 1 not known", file.Output, StringComparison.Ordinal);
        Assert.Equal(file.Output, RunLine("audit night.yaml log.csv").Output);
    }

    [Fact]
    public void What_was_changed_by_hand_is_no_ground_for_an_audit()
    {
        WriteLog();
        Write("changed.yaml", Read("deployed.yaml").Replace("do: open, opening: 59", "do: open, opening: 60", StringComparison.Ordinal));
        var result = RunLine("audit changed.yaml log.csv");
        Assert.Equal(("", 2), (result.Output, result.ExitCode));
        Assert.Contains(
            "the switchings were changed after they were compiled: their sha256 is another; compile it anew with --to yaml",
            result.Error,
            StringComparison.Ordinal);
    }

    [Fact]
    public void A_site_that_waters_far_more_often_is_compared_up_to_the_limit_of_work()
    {
        RunLine("compile garden.water --to yaml --days 300 -o year.yaml");
        Write("often.water", Good + "schedule mist { every day; start at 00:00; repeat every 5 s for 17000 passes; steps { water beds for 2 s } }\n");
        var result = RunLine("diff year.yaml often.water");
        Assert.Contains("not after, at the limit of work, most of it for schedule mist (often.water:5) [over-limit]", result.Output, StringComparison.Ordinal);
        Assert.Equal(("", 1), (result.Error, result.ExitCode));
    }

    [Fact]
    public void Whether_the_device_has_its_list_is_said()
    {
        var hash = RunLine("compile garden.water --to csv --only switchings --from 2026-06-01 --days 30").Output.Split('\n')[^2].Split(',')[2];
        Write(
            "log.csv",
            $"time,zone,do,list\n1780290000,lawn,open,{hash}\n1780290600,lawn,close,{hash}\n"
                + "1780290600,beds,open,0123456789ab\n1780291200,beds,close,\n");
        var result = RunLine("audit deployed.yaml log.csv");
        Assert.Contains($"{hash[..12]}, from this file, for Mon 1 Jun 2026 to Tue 30 Jun 2026\n", result.Output, StringComparison.Ordinal);
        Assert.Contains(
            "0123456789ab, not the list of this file for Mon 1 Jun 2026 to Tue 30 Jun 2026: another file or version, or other dates\n",
            result.Output,
            StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("diff deployed.yaml garden.water --from 2026-06-02",
        "a timetable is compared over the dates that it covers, and only its runs; leave out --from, --until and --only")]
    [InlineData("diff garden.water deployed.yaml", "deployed.yaml is a timetable; give it first, and then the site")]
    [InlineData("diff none.yaml garden.water", "no such file: none.yaml")]
    [InlineData("diff bad.yml garden.water", "bad.yml:1:1: this is not a timetable of waterscript; compile it with --to yaml and without --only")]
    [InlineData("diff latin.yaml garden.water", "latin.yaml:1:1: a letter after this is not UTF-8; compile it anew with --to yaml")]
    [InlineData("diff cut.yaml garden.water", "cut.yaml:*")]
    [InlineData("diff list.yaml garden.water", "list.yaml:*this timetable has no description*compile it with --to yaml and without --only")]
    [InlineData("diff pass.yaml garden.water", "pass.yaml:*this is one pass (--run), and not the timetable of some dates; compile it without --run")]
    [InlineData("audit deployed.yaml log.csv --days 3", "a timetable says itself which dates it covers; leave out --from, --until and --days")]
    [InlineData("audit bad.yml log.csv", "bad.yml:1:1: this is not a timetable of waterscript; compile it with --to yaml and without --only")]
    [InlineData(
        "diff deployed.yaml garden.water -o deployed.yaml",
        "deployed.yaml is a source, and the output would take its place; give the output another name")]
    public void What_cannot_be_compared_is_refused_in_words(string line, string words)
    {
        WriteLog();
        Write("bad.yml", "kind: other\n");
        Write("latin.yaml", [.. "waterscript: 1\nsite: \"caf"u8, 0xE9, .. "\"\n"u8]);
        Write("cut.yaml", Read("deployed.yaml")[..3000]);
        RunLine("compile garden.water --to yaml --only runs --from 2026-06-01 --days 30 -o list.yaml");
        RunLine("compile garden.water --to yaml --run morning --at 2026-06-01T06:00 -o pass.yaml");
        var result = RunLine(line);
        Assert.Equal(("", 2), (result.Output, result.ExitCode));
        var parts = words.Split('*');
        Assert.StartsWith("waterscript: " + parts[0], result.Error, StringComparison.Ordinal);
        Assert.All(parts, part => Assert.Contains(part, result.Error, StringComparison.Ordinal));
    }

    private string WriteLog()
    {
        Write("log.csv", Log);
        return "log.csv";
    }
}
