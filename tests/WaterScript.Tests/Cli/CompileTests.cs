using System.Text;
using System.Text.Json.Nodes;
using WaterScript.Tests.Documents;
using Xunit;

namespace WaterScript.Tests.Cli;

public sealed class CompileTests : Workshop
{
    [Fact]
    public void A_year_from_effective_goes_to_standard_output()
    {
        Write("site.water", Good);
        var result = Run("compile", "site.water", "--to", "json");
        var tree = JsonNode.Parse(result.Output)!;
        Assert.Equal("2026-03-01T00:00:00+00:00", tree["valid"]!["from"]!.GetValue<string>());
        Assert.Equal("2027-03-01T00:00:00+00:00", tree["valid"]!["until"]!.GetValue<string>());
        Assert.Equal(2 * 365, tree["end"]!["runs"]!.GetValue<int>());
        Assert.Equal(("", 0), (result.Error, result.ExitCode));
    }

    [Theory]
    [InlineData("--days 1", "2026-03-01T06:00:00+00:00", 2)]
    [InlineData("--from 2026-03-29 --days 2", "2026-03-29T06:00:00+01:00", 4)]
    [InlineData("--from 2026-07-01 --until 2026-07-04", "2026-07-01T06:00:00+01:00", 6)]
    [InlineData("--until 2026-03-03", "2026-03-01T06:00:00+00:00", 4)]
    [InlineData("--from 2025-01-01 --days 30", null, 0)]
    [InlineData("--run morning --at 2026-05-01T09:30", "2026-05-01T09:30:00+01:00", 2)]
    public void Dates_choose_what_is_in_it(string options, string? first, int runs)
    {
        Write("site.water", Good);
        var records = CsvReader.Read(RunLine($"compile site.water --to csv {options}").Output);
        Assert.Equal(runs, records.Count - 2);
        Assert.Equal(first, runs == 0 ? null : records[1][1]);
    }

    [Theory]
    [InlineData("compile garden.txt --to yaml -o garden.txt", "garden.txt")]
    [InlineData("compile garden.txt --to yaml -o ./plots/../garden.txt", "garden.txt")]
    [InlineData("compile garden.txt --to yaml -o zones.txt", "zones.txt")]
    [InlineData("compile garden.txt --to icalendar -o zones.txt", "zones.txt")]
    [InlineData("check garden.txt --report sarif -o garden.txt", "garden.txt")]
    [InlineData("check garden.txt -o other.water", "other.water")]
    public void A_source_is_never_written_over(string line, string path)
    {
        Write("garden.txt", Good + "include \"zones.txt\"\n");
        Write("zones.txt", "let spell = 10 min\n");
        Write("other.water", Good);
        Write("plots/empty.txt", "");
        var before = File.ReadAllText(PathOf(path));
        var result = RunLine(line);
        Assert.Equal(2, result.ExitCode);
        Assert.Contains("is a source, and the output would take its place; give the output another name", result.Error, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllText(PathOf(path)));
    }

    [Fact]
    public void Findings_go_to_standard_error_when_the_document_goes_to_standard_output()
    {
        Write("site.water", Good.Replace("06:00", "01:30", StringComparison.Ordinal));
        var result = Run("compile", "site.water", "--to", "yaml");
        Assert.Contains("warning: ", result.Error, StringComparison.Ordinal);
        Assert.StartsWith("waterscript: 1\n", result.Output, StringComparison.Ordinal);
        Assert.Equal(0, result.ExitCode);
    }

    [Fact]
    public void An_error_that_is_accepted_keeps_nothing_from_being_written()
    {
        // Two passes of ten minutes on one zone, five minutes apart.
        var overlapping = Good.Replace("start at 06:00;", "start at 06:00; start at 06:05;", StringComparison.Ordinal);
        Write("site.water", overlapping);
        Assert.Equal(("", 1), (Run("compile", "site.water", "--to", "csv").Output, Run("check", "site.water").ExitCode));
        var found = Run("check", "site.water", "--report", "json").Output;
        var slugs = JsonNode.Parse(found)!["sites"]![0]!["findings"]!.AsArray().Where(finding => finding!["severity"]!.GetValue<string>() == "error")
            .Select(finding => finding!["rule"]!.GetValue<string>()).Distinct();
        Write("site.water", overlapping + string.Concat(slugs.Select(slug => $"accept {slug} because \"a test of the valves\"\n")));
        var result = Run("compile", "site.water", "--to", "csv");
        Assert.StartsWith("run,from,to,zone", result.Output, StringComparison.Ordinal);
        Assert.Equal(0, result.ExitCode);
    }

    [Fact]
    public void An_error_keeps_it_from_writing_and_the_old_file_stays()
    {
        Write("site.water", Good + "zone lawn { output 3 }\n");
        Write("out.yaml", "old");
        var result = Run("compile", "site.water", "--to", "yaml", "-o", "out.yaml");
        Assert.Contains("Garden: 1 error. Nothing was written.\n", result.Error, StringComparison.Ordinal);
        Assert.Equal(("", 1), (result.Output, result.ExitCode));
        Assert.Equal("old", Read("out.yaml"));
        Assert.Equal(["out.yaml", "site.water"], Names());
    }

    [Fact]
    public void Despite_errors_it_writes_what_there_is_and_says_so()
    {
        Write("site.water", Good + "zone lawn { output 3 }\n");
        var result = Run("compile", "site.water", "--to", "csv", "--days", "1", "--despite-errors");
        Assert.Equal(4, CsvReader.Read(result.Output).Count);
        Assert.Contains("because of --despite-errors", result.Error, StringComparison.Ordinal);
        Assert.Equal(1, result.ExitCode);
    }

    [Fact]
    public void Without_a_site_there_is_nothing_to_write_despite_errors()
    {
        Write("site.water", "zone lawn { output 3 }\n");
        var result = Run("compile", "site.water", "--to", "csv", "--despite-errors");
        Assert.Equal(("", 1), (result.Output, result.ExitCode));
    }

    [Fact]
    public void A_file_is_replaced_whole_and_keeps_its_permissions()
    {
        Write("site.water", Good);
        var old = Write("out.json", new string('x', 1_000_000));
        if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(old, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead);
        var result = Run("compile", "site.water", "--to", "json", "--days", "2", "-o", "out.json");
        Assert.Equal(("", "", 0), (result.Output, result.Error, result.ExitCode));
        Assert.Equal(Run("compile", "site.water", "--to", "json", "--days", "2").Output, Read("out.json"));
        Assert.Equal(["out.json", "site.water"], Names());
        if (!OperatingSystem.IsWindows()) Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead, File.GetUnixFileMode(old));
    }

    [Fact]
    public void A_link_stays_and_what_it_leads_to_is_written()
    {
        Write("site.water", Good);
        Write("real/out.csv", "old");
        File.CreateSymbolicLink(PathOf("out.csv"), "real/out.csv");
        Assert.Equal(0, Run("compile", "site.water", "--to", "csv", "-o", "out.csv").ExitCode);
        Assert.Equal("real/out.csv", new FileInfo(PathOf("out.csv")).LinkTarget);
        Assert.StartsWith("run,from,to,", Read("real/out.csv"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("nowhere/out.yaml", "cannot write nowhere/out.yaml: no such folder: nowhere")]
    [InlineData("folder", "cannot write folder: it is a folder")]
    [InlineData("site.water/out.yaml", "cannot write site.water/out.yaml: no such folder: site.water")]
    public void Where_it_cannot_be_written_it_says_why(string path, string why)
    {
        Write("site.water", Good);
        Directory.CreateDirectory(PathOf("folder"));
        var result = Run("compile", "site.water", "--to", "yaml", "-o", path);
        Assert.Equal($"waterscript: {why}\n", result.Error);
        Assert.Equal(2, result.ExitCode);
        Assert.Equal(["folder", "site.water"], Names());
        Assert.Equal(Good, Read("site.water"));
    }

    [Fact]
    public void A_full_disk_is_reported()
    {
        if (!OperatingSystem.IsLinux()) return;
        Write("site.water", Good);
        var result = Run("compile", "site.water", "--to", "yaml", "-o", "/dev/full");
        Assert.Equal(("waterscript: cannot write /dev/full: the disk is full\n", 2), (result.Error, result.ExitCode));
        result = WaterscriptProcess.Shell(Folder, "\"$WATERSCRIPT\" compile site.water --to yaml > /dev/full");
        Assert.Equal(("waterscript: the disk is full\n", 2), (result.Error, result.ExitCode));
        result = WaterscriptProcess.Shell(Folder, "\"$WATERSCRIPT\" check site.water > /dev/full");
        Assert.Equal(("waterscript: the disk is full\n", 2), (result.Error, result.ExitCode));
    }

    [Fact]
    public void A_reader_that_goes_away_is_no_trouble()
    {
        if (OperatingSystem.IsWindows()) return;
        Write("site.water", Good);
        var result = WaterscriptProcess.Shell(Folder, "\"$WATERSCRIPT\" compile site.water --to yaml --days 36500 | head -n 1");
        Assert.Equal(("waterscript: 1\n", ""), (result.Output, result.Error));
    }

    [Fact]
    public void Standard_input_and_output_are_files_too()
    {
        Write("site.water", Good);
        var input = Encoding.UTF8.GetBytes(Good);
        var result = WaterscriptProgram.Run(Folder, input, [], "compile", "-", "--to", "yaml", "-o", "-");
        Assert.Equal(Run("compile", "site.water", "--to", "yaml").Output.Replace("\"site.water\"", "\"-\"", StringComparison.Ordinal), result.Output);
    }

    /// <summary>The same source gives the same bytes: other clocks, other languages, another folder, another spelling of the path.</summary>
    [Theory]
    [InlineData("yaml")]
    [InlineData("json")]
    [InlineData("csv")]
    public void Machine_and_place_change_no_byte(string format)
    {
        Write("sub/site.water", Good);
        string[] arguments = ["compile", "sub/site.water", "--to", format];
        var plain = Run(arguments).Output;
        (string, string)[][] machines =
        [
            [("TZ", "Pacific/Apia"), ("LANG", "de_DE.UTF-8"), ("LC_ALL", "de_DE.UTF-8")],
            [("TZ", "America/St_Johns"), ("LANG", "tr_TR.UTF-8"), ("LC_ALL", "tr_TR.UTF-8"), ("DOTNET_SYSTEM_GLOBALIZATION_INVARIANT", "0")],
            [("TZ", ":nonsense"), ("LANG", "ar_SA"), ("LC_ALL", "ar_SA"), ("TERM", "dumb")],
        ];
        Assert.All(Samples.Some(machines, format[^1]), machine => Assert.Equal(plain, WaterscriptProcess.Run(Folder, [], machine, arguments).Output));
        Assert.Equal(plain, WaterscriptProgram.Run(PathOf("sub"), "compile", "./site.water", "--to", format).Output);
        Assert.Equal(plain, Run("compile", PathOf("sub/site.water"), "--to", format).Output);
    }

    [Fact]
    public void The_documents_of_one_compile_close_with_one_hash()
    {
        Write("site.water", Good);
        string Output(string format) => Run("compile", "site.water", "--to", format).Output;
        var hash = JsonNode.Parse(Output("json"))!["end"]!["sha256"]!.GetValue<string>();
        Assert.Equal(hash, Trees.FromYaml(Output("yaml"))!["end"]!["sha256"]!.GetValue<string>());
        Assert.Equal(hash, CsvReader.Read(Output("csv"))[^1][2]);
    }

    [Fact]
    public void A_controller_alone_and_runs_alone()
    {
        Write("site.water", """
            site garden { timezone Europe/Lisbon; effective 2026-03-01 }
            controller shed { outputs 4 }
            controller deck { outputs 4 }
            zone lawn { output 1 of shed }
            zone pots { output 1 of deck }
            schedule morning { every day; start at 06:00; steps { water lawn, pots for 10 min } }
            """);
        var records = CsvReader.Read(RunLine("compile site.water --to csv --days 1 --controller deck").Output);
        Assert.Equal("pots", Assert.Single(records[1..^1])[3]);
        var tree = JsonNode.Parse(RunLine("compile site.water --to json --days 1 --only runs").Output)!.AsObject();
        Assert.Equal(["waterscript", "site", "valid", "runs", "end"], tree.Select(entry => entry.Key));
        records = CsvReader.Read(RunLine("compile site.water --to csv --days 1 --controller deck --only switchings").Output);
        Assert.Equal(["1772345400", "0", "deck", "1", "open", "", "", "660", "2"], records[1]);
        Assert.Equal(["1772346000", "0", "deck", "1", "close", "", "", "660", "2"], records[2]);
        records = CsvReader.Read(RunLine("compile site.water --to csv --days 1 --controller deck --only openings").Output);
        Assert.Equal(["2", "2026-03-01T06:10:00+00:00", "2026-03-01T06:20:00+00:00", "deck", "1", "zone", "pots", "600", "2"], Assert.Single(records[1..^1]));
    }

    [Theory]
    [InlineData("compile site.water", "say what to write: --to yaml, --to json, --to csv or --to icalendar")]
    [InlineData("compile site.water --to xml", "--to must be yaml, json, csv or icalendar, not xml")]
    [InlineData("compile --to yaml", "compile needs a file")]
    [InlineData("compile folder --to yaml", "folder is a folder; give a file")]
    [InlineData("compile site.water --to yaml --from 2026-02-30", "--from needs a date such as 2026-05-01, not 2026-02-30")]
    [InlineData("compile site.water --to yaml --until 1/5/2026", "--until needs a date such as 2026-05-01, not 1/5/2026")]
    [InlineData("compile site.water --to yaml --days 0", "--days must be 1 to 36525")]
    [InlineData("compile site.water --to yaml --days ten", "--days must be 1 to 36525, not ten")]
    [InlineData("compile site.water --to yaml --until 2026-03-01", "is not after the first day, 2026-03-01")]
    [InlineData("compile site.water --to yaml --until 2999-01-01", "more than 36525 days")]
    [InlineData("compile site.water --to yaml --until 2026-05-01 --days 3", "--until and --days say the same")]
    [InlineData("compile site.water --to yaml --run morning", "--run and --at go together")]
    [InlineData("compile site.water --to yaml --run mornig --at 2026-05-01T09:30", "no schedule \"mornig\"; did you mean morning?")]
    [InlineData("compile site.water --to yaml --run morning --at 9:30", "--at needs a date and time such as 2026-05-01T09:30, not 9:30")]
    [InlineData("compile site.water --to yaml --run morning --at 2026-05-01T09:30 --days 2", "--run is one pass at one moment")]
    [InlineData("compile site.water --to yaml --controller shed", "no controller \"shed\"; there are: ")]
    [InlineData("compile site.water --to ymal", "--to must be yaml, json, csv or icalendar, not ymal; did you mean yaml?")]
    [InlineData("compile site.water --to csv --only zones", "--only must be runs, openings or switchings, not zones")]
    [InlineData("compile site.water --tp yaml", "unknown option --tp; did you mean --to?")]
    [InlineData("compile site.water other.water --to yaml", "unknown argument other.water")]
    [InlineData("compile site.water --to", "--to needs a value")]
    [InlineData("compile site.water --to csv --to yaml", "--to is given more than once")]
    [InlineData("complie site.water", "unknown command complie; did you mean compile?")]
    [InlineData("", "needs a command: check, compile, chart, view, format, ")]
    [InlineData("explain syntx", "no rule \"syntx\"; did you mean syntax?")]
    public void What_cannot_run_says_why_and_hands_back_two(string line, string why)
    {
        Write("site.water", Good);
        Directory.CreateDirectory(PathOf("folder"));
        var result = RunLine(line);
        Assert.StartsWith("waterscript: ", result.Error, StringComparison.Ordinal);
        Assert.Contains(why, result.Error, StringComparison.Ordinal);
        Assert.Equal(("", 2), (result.Output, result.ExitCode));
    }

    /// <summary>
    /// From July on the night needs 8 h 3 min of the 7 h 30 min that are allowed: the pass of 1 July ends too late on 2 July. Each pass lies within a day
    /// of its date, so what is written until 1 July has nothing of that in it.
    /// </summary>
    [Theory]
    [InlineData("--until 2026-07-01", 0, "park: the first error comes on Thu 2 Jul 2026, after what is written.\n")]
    [InlineData("--until 2026-07-02", 1, "Nothing was written. The first error comes on Thu 2 Jul 2026: days before it are written with --until 2026-07-01.\n")]
    [InlineData("--from 2026-07-01 --days 3", 1, "1 error. Nothing was written.\n")]
    public void Days_before_the_first_error_are_written(string dates, int status, string end)
    {
        Write("park.water", """
            site park { timezone Europe/Vienna; effective 2026-03-15 }
            zone north { output 1 }
            zone south { output 2 }
            scale year { jul 115 % }
            restriction town { allow between 21:30 and 05:00 }
            schedule night { on wed; start at 21:30; scale year; steps { water north, south for 210 min } }
            """);
        var result = Run(["compile", "park.water", "--to", "csv", .. dates.Split(' ')]);
        Assert.EndsWith(end, result.Error, StringComparison.Ordinal);
        Assert.Equal((status, status == 1), (result.ExitCode, result.Output.Length == 0));
    }
}
