using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>The command from end to end: a list is compiled, a device carries it out and writes a log, and the log is compared with the file.</summary>
public sealed class AuditCommandTests : Workshop
{
    private const string Yard = """
        site yard "Yard" { timezone Europe/Lisbon; effective 2026-03-01 }
        controller box { outputs 4 }
        controller shed { outputs 4 }
        zone lawn "Lawn" { output 1 of box; flow 6 gpm }
        zone beds "Beds *north*" { output 2 of box; flow 3 gpm }
        zone pots { output 1 of shed }
        schedule morning { every day; start at 06:00; steps { water lawn, beds, pots for 10 min } }

        """;

    private const string Dates = "--from 2026-06-01 --days 2";

    private static readonly JsonSerializerOptions AsWritten = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    [Fact]
    public void What_was_carried_out_is_done_and_hands_back_nothing()
    {
        WriteLog(Switchings(Dates));
        var result = RunLine($"audit yard.water log.csv {Dates}");
        Assert.Equal(("", 0), (result.Error, result.ExitCode));
        Assert.Equal(
            $"""
            Yard, Mon 1 Jun 2026 06:00 to Tue 2 Jun 2026 06:30, 12 rows: 6 of 6 waterings done.
            By schedule and day:
              Mon 1 Jun 2026 morning: 3 of 3 done
              Tue 2 Jun 2026 morning: 3 of 3 done
            Water, from run times: Lawn 120 of 120 gal, Beds *north* 60 of 60, pots 20 min of 20 min.
            Timetable in the device: {HashOf(Dates)[..12]}, from this file, for Mon 1 Jun 2026 to Tue 2 Jun 2026.
            "Done" means switched; the log does not show that water flowed.

            """,
            result.Output,
            ignoreLineEndingDifferences: true);
    }

    [Fact]
    public void A_log_may_come_from_standard_input()
    {
        Write("yard.water", Yard);
        WriteLog(Switchings(Dates));
        var fromFile = RunLine($"audit yard.water log.csv {Dates}");
        var fromInput = WaterscriptProgram.Run(Folder, File.ReadAllBytes(PathOf("log.csv")), [], ["audit", "yard.water", "-", .. Dates.Split(' ')]);
        Assert.Equal((fromFile.Output.Replace("log.csv", "-", StringComparison.Ordinal), 0), (fromInput.Output, fromInput.ExitCode));
        Assert.Equal("waterscript: only one of the files can be standard input\n", RunLine("audit yard.water - -").Error);
    }

    [Fact]
    public void Markdown_is_ready_for_a_comment_and_takes_no_markup_from_a_source()
    {
        WriteFaultyLog();
        var result = RunLine($"audit yard.water log.csv {Dates} --report markdown");
        Assert.Equal(("", 1), (result.Error, result.ExitCode));
        Assert.Equal(
            $$"""
            **Yard, Mon 1 Jun 2026 06:00 to Tue 2 Jun 2026 06:30, 13 rows: 2 of 6 waterings done, 1 short, 1 manual, 1 skipped, 1 fault, 1 not known.**

            By schedule and day:

            - Mon 1 Jun 2026 morning: 0 of 3 done, 1 short, 1 skipped, 1 not known
            - Tue 2 Jun 2026 morning: 2 of 3 done, 1 fault

            Not as planned:

            - Mon 1 Jun 2026 06:00  Lawn: short, ran 4 min; by the meter 30.0 gal of 24.0 gal in that time; 10 min planned (log.csv:2)
            - Mon 1 Jun 2026 06:10  Beds \*north\*: skipped, \<b\>rain\</b\>; 10 min planned (log.csv:4)
            - Tue 2 Jun 2026 06:00  Lawn: fault, no flow, ran 10 min; 10 min planned (log.csv:9)
            - Tue 2 Jun 2026 06:15  pots: manual, ran 1 min (log.csv:12)

            Not known:

            - Mon 1 Jun 2026 06:20  pots: the log has a hole there; 10 min planned

            Water, from run times: Lawn 84 of 120 gal (by the meter 30), Beds \*north\* 30 of 60, pots 11 min of 10 min (and 10 min unknown).

            Timetable in the device: {{HashOf(Dates)[..12]}}, from this file, for Mon 1 Jun 2026 to Tue 2 Jun 2026.

            Ignored: 1 row, "yesterday" is not a time (log.csv:14).

            """,
            result.Output,
            ignoreLineEndingDifferences: true);
    }

    [Fact]
    public void Programs_get_json()
    {
        WriteFaultyLog();
        var tree = JsonNode.Parse(RunLine($"audit yard.water log.csv {Dates} --report json").Output)!;
        Assert.Equal(
            ["waterscript_audit", "site", "timezone_data", "from", "to", "rows", "doubled", "timetables", "entries", "water", "passed_over"],
            tree.AsObject().Select(member => member.Key));
        Assert.Equal(
            """{"class":"short","zone":"lawn","schedule":"morning","day":"2026-06-01","meant_from":"2026-06-01T06:00:00+01:00","meant_s":600"""
                + ""","actual_from":"2026-06-01T06:00:00+01:00","actual_s":240,"metered_l":113.56,"expected_l":90.85,"file":"log.csv","line":2}""",
            tree["entries"]![0]!.ToJsonString(AsWritten));
        Assert.Equal(["short", "skipped", "not known", "fault", "done", "manual", "done"],
            tree["entries"]!.AsArray().Select(entry => (string)entry!["class"]!));
        Assert.Equal(
            """{"class":"manual","zone":"pots","day":"2026-06-02","actual_from":"2026-06-02T06:15:00+01:00","actual_s":60,"file":"log.csv","line":12}""",
            tree["entries"]![5]!.ToJsonString(AsWritten));
        Assert.Equal("""{"zone":"lawn","meant_s":1200,"actual_s":840,"meant_l":454.25,"actual_l":317.97,"metered_l":113.56}""",
            tree["water"]![0]!.ToJsonString(AsWritten));
        Assert.Equal("""{"zone":"pots","meant_s":1200,"actual_s":660,"not_known_s":600}""", tree["water"]![2]!.ToJsonString(AsWritten));
        Assert.Equal($$"""{"hash":"{{HashOf(Dates)}}","is":"of this file","from":"2026-06-01","until":"2026-06-03"}""",
            tree["timetables"]![0]!.ToJsonString(AsWritten));
        Assert.Equal("""{"file":"log.csv","line":14,"why":"\"yesterday\" is not a time"}""", tree["passed_over"]![0]!.ToJsonString(AsWritten));
    }

    [Fact]
    public void That_a_device_ran_another_list_is_shown_although_it_did_what_was_meant()
    {
        WriteLog(Switchings(Dates));
        var result = RunLine("audit yard.water log.csv");
        Assert.Contains(
            $"{HashOf(Dates)[..12]}, not the list of this file for Sun 1 Mar 2026 to Sun 28 Feb 2027: another file or version, "
                + "or other dates (give --from and --days as in compile).",
            OneLine(result.Output),
            StringComparison.Ordinal);
        Assert.Equal(0, result.ExitCode);

        Write("yard.water", Yard.Replace("start at 06:00", "start at 06:00:01", StringComparison.Ordinal));
        Assert.Contains(", not the list of this file for Mon 1 Jun 2026 to Tue 2 Jun 2026: ", OneLine(RunLine($"audit yard.water log.csv {Dates}").Output),
            StringComparison.Ordinal);
    }

    [Fact]
    public void A_layout_is_no_other_list_and_a_controller_may_have_a_list_of_its_own()
    {
        WriteLog(Switchings($"{Dates} --controller shed"));
        Write("yard.water", "# a comment\n" + Yard.Replace("; effective", "\n effective", StringComparison.Ordinal));
        Assert.Contains(", from this file, for Mon 1 Jun 2026 to Tue 2 Jun 2026, of shed.",
            OneLine(RunLine($"audit yard.water log.csv {Dates}").Output), StringComparison.Ordinal);
        Assert.Equal("shed", (string?)JsonNode.Parse(RunLine($"audit yard.water log.csv {Dates} --report json").Output)!["timetables"]![0]!["controller"]);
    }

    [Fact]
    public void A_hash_may_be_cut_off_but_not_too_short()
    {
        Write("yard.water", Yard);
        var hash = HashOf(Dates).ToUpperInvariant();
        Write("log.csv", $"time,output,controller,do,list\n2026-06-01 06:00:00,1,box,open,{hash[..8]}\n2026-06-01 06:10:00,1,box,close,{hash[..7]}\n");
        var text = RunLine($"audit yard.water log.csv {Dates}").Output;
        Assert.Contains($"  {hash[..8]}, from this file", text, StringComparison.Ordinal);
        Assert.Contains($"  {hash[..7]}, too short to identify the list\n", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_report_goes_where_it_is_sent_and_never_over_a_source()
    {
        WriteLog(Switchings(Dates));
        var written = RunLine($"audit yard.water log.csv {Dates} -o report.md --report markdown");
        Assert.Equal(("", "", 0), (written.Output, written.Error, written.ExitCode));
        Assert.StartsWith("**Yard, ", Read("report.md"), StringComparison.Ordinal);
        Assert.Equal(2, RunLine("audit yard.water log.csv -o yard.water").ExitCode);
        Assert.Equal(Yard, Read("yard.water"));
    }

    [Theory]
    [InlineData("audit yard.water", "audit needs FILE, LOG")]
    [InlineData("audit yard.water gone.csv", "no such file: gone.csv")]
    [InlineData("audit yard.water empty.csv", "no column of empty.csv is called time, or from and to")]
    [InlineData("audit yard.water bad.csv", "no row of the log could be used; bad.csv:2: \"later\" is not a time")]
    [InlineData("audit yard.water log.csv --columns tine=Zeit", "--columns: no column \"tine\"; did you mean time?")]
    [InlineData("audit yard.water log.csv --columns time", "--columns needs pairs such as time=Zeit, not time")]
    [InlineData("audit yard.water log.csv --tolerance -1", "--tolerance must be 0 to 86400")]
    [InlineData("audit yard.water log.csv --silence soon", "--silence must be 0 to ")]
    [InlineData("audit yard.water log.csv --report html", "--report must be text, markdown or json, not html")]
    [InlineData("audit yard.water log.csv --days 2 --until 2026-06-03", "--until and --days say the same; give one of them")]
    public void What_cannot_run_says_why_and_hands_back_two(string line, string why)
    {
        WriteLog(Switchings(Dates));
        Write("empty.csv", "");
        Write("bad.csv", "time,output,do\nlater,1,open\n");
        var result = RunLine(line);
        Assert.Contains(why, result.Error, StringComparison.Ordinal);
        Assert.Equal(("", 2), (result.Output, result.ExitCode));
    }

    [Fact]
    public void A_file_with_an_error_is_no_measure()
    {
        WriteLog(Switchings(Dates));
        Write("yard.water", Yard.Replace("water lawn,", "water lawm,", StringComparison.Ordinal));
        var result = RunLine("audit yard.water log.csv");
        Assert.Contains("no zone is called \"lawm\"", result.Error, StringComparison.Ordinal);
        Assert.Equal(("", 2), (result.Output, result.ExitCode));
    }

    /// <summary>A report without the breaks of its long lines.</summary>
    private static string OneLine(string report) => report.Replace("\n  ", " ", StringComparison.Ordinal);

    private string[][] Switchings(string options)
    {
        Write("yard.water", Yard);
        return [.. RunLine($"compile yard.water --to csv --only switchings {options}").Output.Split("\r\n", StringSplitOptions.RemoveEmptyEntries)[1..]
            .Select(line => line.Split(','))];
    }

    private string HashOf(string options) => Switchings(options)[^1][2];

    /// <summary>A device that does what its list says, and tells which list that is.</summary>
    private void WriteLog(string[][] list) =>
        Write("log.csv", "time,controller,output,do,list\n" + string.Concat(list[..^1].Select(row => $"{row[0]},{row[2]},{row[3]},{row[4]},{list[^1][2]}\n")));

    /// <summary>A valve closed early, rain, a hole, a fault, a hand, a meter, a broken row.</summary>
    private void WriteFaultyLog()
    {
        var hash = HashOf(Dates);
        string[] rows =
        [
            "2026-06-01 06:00:00,box,1,open,,1,113.56",
            "2026-06-01 06:04:00,box,1,close,,2,",
            "2026-06-01 06:10:00,box,2,skip,<b>rain</b>,3,",
            "2026-06-02 06:00:00,box,1,open,,40,",
            "2026-06-02 06:10:00,box,1,close,,42,",
            "2026-06-02 06:10:00,box,2,open,,43,",
            "2026-06-02 06:20:00,box,2,close,,46,",
            "2026-06-02 06:05:00,box,1,fault,no flow,41,",
            "2026-06-02 06:20:00,shed,1,open,,47,",
            "2026-06-02 06:30:00,shed,1,close,,48,",
            "2026-06-02 06:15:00,shed,1,open,hand,44,",
            "2026-06-02 06:16:00,shed,1,close,,45,",
            "yesterday,box,1,open,,49,",
            "2026-06-02 06:30:00,,,alive,,50,",
        ];
        Write("log.csv", "time,controller,output,do,why,number,litres,list\n"
            + string.Concat(rows.Select(row => string.Create(CultureInfo.InvariantCulture, $"{row},{hash}\n"))));
    }
}
