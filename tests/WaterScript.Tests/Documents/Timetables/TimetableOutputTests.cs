using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Json.Schema;
using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Documents.Timetables;
using WaterScript.Simulation;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Timetables;
using WaterScript.Timetables;
using Xunit;
using OutputFormat = WaterScript.Documents.Timetables.OutputFormat;

namespace WaterScript.Tests.Documents.Timetables;

public partial class TimetableOutputTests
{
    private const double MostForEachRun = 16;

    private static readonly OutputOptions Options = new();
    private static readonly JsonSchema Schema = JsonSchema.FromText(Repository.Read("docs/timetable.schema.json"));
    private static readonly Timetable Year = Timetable.Of(HandMadeSite.Full, Horizon.YearFrom(HandMadeSite.Full.Effective));

    [Fact]
    public void The_document_is_what_the_schema_says() => HoldAgainstSchema(Write(Year, OutputFormat.Json));

    [Fact]
    public void A_document_of_runs_only_is_what_the_schema_says()
    {
        var json = Write(Year, OutputFormat.Json, Options with { Only = TimetableList.Runs, Controller = HandMadeSite.Full.Controllers[1] });
        HoldAgainstSchema(json);
        Assert.Equal(["waterscript", "site", "valid", "controller", "runs", "end"], JsonNode.Parse(json)!.AsObject().Select(entry => entry.Key));
    }

    [Fact]
    public void The_schema_refuses_what_it_does_not_know()
    {
        var document = JsonNode.Parse(Write(Year, OutputFormat.Json))!;
        document["zones"]![0]!["flow"] = 3;
        Assert.False(Schema.Evaluate(JsonSerializer.SerializeToElement(document)).IsValid);
    }

    [Fact]
    public void Yaml_and_json_are_the_same_tree() =>
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(Write(Year, OutputFormat.Json)), Trees.FromYaml(Write(Year, OutputFormat.Yaml))));

    /// <summary>The regular expressions are those of yaml.org/type: bool, float, int, merge, null, timestamp, value, for YAML 1.1.</summary>
    [Fact]
    public void A_reader_of_the_older_yaml_reads_the_same()
    {
        var plain = Trees.PlainScalars(Write(Year, OutputFormat.Yaml));
        Assert.NotEmpty(plain);
        Assert.All(plain.Distinct(), scalar => Assert.True(
            IsSameNumber(scalar) || scalar is "true" or "false" || !TakenForSomethingElse().IsMatch(scalar),
            $"{scalar} is not text for a YAML 1.1 reader"));
    }

    [Fact]
    public void The_table_of_runs_is_read_by_the_book()
    {
        var records = CsvReader.Read(Write(Year, OutputFormat.Csv));
        Assert.Equal("run,from,to,zone,output,controller,schedule,day,start,pass,pass_start,step,seconds,depth_mm,volume_l", string.Join(',', records[0]));
        Assert.All(records, record => Assert.Equal(records[0].Length, record.Length));
        Assert.Equal("end", records[^1][0]);
        Assert.Equal(records.Count - 2, int.Parse(records[^1][1], CultureInfo.InvariantCulture));
        Assert.Equal(Year.Runs().Count(), records.Count - 2);
    }

    [Fact]
    public void All_documents_of_a_timetable_hold_the_same_runs()
    {
        var csv = Write(Year, OutputFormat.Csv);
        var records = CsvReader.Read(csv);
        var tree = JsonNode.Parse(Write(Year, OutputFormat.Json))!;
        var runs = tree["runs"]!.AsArray();
        foreach (var (run, record) in runs.Zip(records[1..^1]))
        {
            string[] keys = ["run", "from", "to", "zone", "schedule", "day", "start", "pass", "pass_start", "step", "depth_mm", "volume_l"];
            Assert.Equal(keys.Select(key => run![key]?.ToString() ?? ""), keys.Select(key => record[Array.IndexOf(records[0], key)]));
        }

        // Hashed here by another implementation than the outputs use: all of it, with the hash and what it comes from left empty.
        var withoutHash = csv.Replace($",{records[^1][2]},", ",,", StringComparison.Ordinal)
            .Replace(string.Join(',', records[^1][5..9]), ",,,", StringComparison.Ordinal);
        var hash = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(withoutHash)));
        Assert.Equal(hash, records[^1][2]);
        Assert.Equal(hash, tree["end"]!["sha256"]!.GetValue<string>());
        Assert.Equal(hash, Trees.FromYaml(Write(Year, OutputFormat.Yaml))!["end"]!["sha256"]!.GetValue<string>());
    }

    [Fact]
    public void Totals_add_up_the_runs()
    {
        var tree = JsonNode.Parse(Write(Year, OutputFormat.Json))!;
        var records = CsvReader.Read(Write(Year, OutputFormat.Csv))[1..^1];
        foreach (var total in tree["totals"]!.AsArray())
        {
            var own = records.Where(record => record[3] == total!["zone"]!.GetValue<string>()).ToList();
            Assert.Equal(own.Count, total!["runs"]!.GetValue<int>());
            Assert.Equal(own.Sum(record => long.Parse(record[12], CultureInfo.InvariantCulture)), total["seconds"]!.GetValue<long>());
        }
    }

    /// <summary>Worked out by hand: 18 L/min over 120 m² is 9 mm/h; 300 s at 60 % and a trim of 90 % are 162 s, 48.6 L, 0.405 mm, rounded half up.</summary>
    [Fact]
    public void What_is_taken_stands_watering_by_watering_and_the_sun_day_by_day()
    {
        var site = Sites.Read("""
            site s { timezone Europe/Lisbon; effective 2026-06-01; location 38.72 N 9.14 W }
            zone a { output 1 }
            zone b { output 2 }
            hold a from 2026-06-02 20:05 to 2026-06-03 12:00 because "fair"
            closed from 5 jun to 6 jun because "works"
            schedule s { every day; start at 20:00; steps { repeat 2 times { water a for 10 min; water b for 5 min } } }
            """);
        var document = JsonNode.Parse(Write(Timetable.Of(site, Horizon.DaysFrom(site.Effective, 7)), OutputFormat.Json))!;

        HoldAgainstSchema(document.ToJsonString());
        // Worked out by hand: on 2 June the hold begins in the first watering of a, and takes its last five minutes and all of the second.
        Assert.Equal(
            ["2026-06-02T20:05:00+01:00 2026-06-02T20:10:00+01:00 a 1#1.1 hold fair", "2026-06-02T20:15:00+01:00 2026-06-02T20:25:00+01:00 a 1#2.1 hold fair"],
            document["taken_runs"]!.AsArray().Where(run => (string?)run!["by"] == "hold")
                .Select(run => $"{run!["from"]} {run["to"]} {run["zone"]} {run["step"]} {run["by"]} {run["because"]}"));
        Assert.Equal(8, document["taken_runs"]!.AsArray().Count(run => (string?)run!["by"] == "closed"));
        var sums = document["taken"]!.AsArray();
        Assert.Equal(document["taken_runs"]!.AsArray().Count, sums.Sum(sum => (int)sum!["runs"]!));

        // Lisbon, 5 June 2026: sunrise 06:12, sunset 20:59 by the algorithm of NOAA's solar calculator (from memory), to two minutes.
        var day = document["sun"]!.AsArray()[4]!;
        Assert.Equal((7, "2026-06-05"), (document["sun"]!.AsArray().Count, (string?)day["day"]));
        Assert.InRange(DateTimeOffset.Parse((string)day["sunrise"]!, CultureInfo.InvariantCulture), At("06:10"), At("06:14"));
        Assert.InRange(DateTimeOffset.Parse((string)day["sunset"]!, CultureInfo.InvariantCulture), At("20:57"), At("21:01"));

        static DateTimeOffset At(string time) => DateTimeOffset.Parse($"2026-06-05T{time}:00+01:00", CultureInfo.InvariantCulture);
    }

    [Fact]
    public void Of_more_than_a_document_holds_it_says_how_many_are_left_out()
    {
        var site = Sites.Read("""
            site s { timezone Europe/Lisbon; effective 2026-01-01; location 38.72 N 9.14 W }
            zone a { output 1 }
            hold from 2026-01-01 to 2030-01-01 because "works"
            schedule s { every day; start at 06:00; repeat every 1 h until 16:00; steps { water a for 1 min } }
            """);
        var document = JsonNode.Parse(Write(Timetable.Of(site, new Horizon(site.Effective, site.Effective.PlusYears(4))), OutputFormat.Json))!;

        HoldAgainstSchema(document.ToJsonString());
        var (runs, sun) = (document["taken_runs"]!.AsArray().Count, document["sun"]!.AsArray().Count);
        Assert.Equal((Limits.TakenRuns, Limits.SunDays), (runs, sun));
        Assert.Equal((long)document["taken"]![0]!["runs"]!, runs + (long)document["taken_runs_left_out"]!);
        Assert.Equal(1461, sun + (int)document["sun_days_left_out"]!);
    }

    [Fact]
    public void Depth_and_volume_are_those_of_the_run()
    {
        var records = CsvReader.Read(Write(Timetable.Of(HandMadeSite.Full, Horizon.DaysFrom(new LocalDate(2026, 4, 10), 1)), OutputFormat.Csv));
        Assert.Equal(
            ["1", "2026-04-10T06:00:00+01:00", "2026-04-10T06:02:42+01:00", "lawn", "1", "shed", "yes", "2026-04-10", "1", "1", "2026-04-10T06:00:00+01:00",
                "1#1.1.1", "162", "0.41", "48.60"],
            records[1]);
    }

    [Fact]
    public void The_description_keeps_its_hash_over_another_horizon_and_loses_it_with_the_content()
    {
        var hash = SiteHash(Year);
        Assert.Equal(hash, SiteHash(Timetable.Of(HandMadeSite.Full, Horizon.DaysFrom(new LocalDate(2027, 1, 1), 3))));
        Assert.NotEqual(hash, SiteHash(Timetable.Of(HandMadeSite.Full with { Label = "Lower" }, Year.Horizon)));
        Assert.NotEqual(hash, SiteHash(Timetable.Of(HandMadeSite.Full with { Schedules = HandMadeSite.Full.Schedules[..4] }, Year.Horizon)));
    }

    [Fact]
    public void The_hash_of_the_description_is_that_of_its_json()
    {
        var tree = JsonNode.Parse(Write(Year, OutputFormat.Json))!.AsObject();
        var site = tree["site"]!.AsObject();
        site.Remove("sha256");
        site.Remove("sources_sha256");
        string[] others =
            ["waterscript", "valid", "places", "runs", "openings", "policy", "outputs", "switchings", "taken", "taken_runs", "sun", "totals", "end"];
        foreach (var key in others) tree.Remove(key);
        var json = tree.ToJsonString(new JsonSerializerOptions { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(json))), SiteHash(Year));
    }

    [Fact]
    public void A_controller_alone_has_its_own_runs_and_the_same_description()
    {
        var deck = HandMadeSite.Full.Controllers[1];
        var all = CsvReader.Read(Write(Year, OutputFormat.Csv))[1..^1];
        var own = CsvReader.Read(Write(Year, OutputFormat.Csv, Options with { Controller = deck }))[1..^1];
        Assert.NotEmpty(own);
        Assert.Equal(all.Where(record => record[5] == deck.Name), own);
        Assert.Equal(SiteHash(Year),
            JsonNode.Parse(Write(Year, OutputFormat.Json, Options with { Controller = deck }))!["site"]!["sha256"]!.GetValue<string>());
    }

    [Fact]
    public void One_pass_that_was_asked_for_is_written_like_any_other()
    {
        var walk = Timetable.OfOnePass(HandMadeSite.Full, HandMadeSite.Full.Schedules[4], new LocalDateTime(2026, 5, 1, 9, 30));
        HoldAgainstSchema(Write(walk, OutputFormat.Json));
        Assert.Equal(["2026-05-01T09:30:00+01:00", "2026-05-01T09:31:21+01:00"],
            CsvReader.Read(Write(walk, OutputFormat.Csv))[1..^1].Select(record => record[1]));
    }

    /// <summary>Ten years of many zones must not live in memory: what a run leaves behind for the collector is bounded, and nothing is kept.</summary>
    [Theory]
    [InlineData(OutputFormat.Yaml)]
    [InlineData(OutputFormat.Json)]
    [InlineData(OutputFormat.Csv)]
    public void Writing_leaves_next_to_nothing_behind_for_each_run(object format)
    {
        // What another thread makes the collector do can empty a pool in between, whose arrays are then new ones, and code that has not run often is
        // compiled in a way that leaves more behind: the first count that is low, with time to compile between them.
        var least = Enumerable.Range(0, 20).Select(count => LeftForEachRun((OutputFormat)format, count))
            .SkipWhile(bytes => bytes >= MostForEachRun).FirstOrDefault(MostForEachRun);
        Assert.True(least < MostForEachRun, $"{MostForEachRun} bytes or more for each further run");
    }

    private static double LeftForEachRun(OutputFormat format, int count)
    {
        Thread.Sleep(50 * Math.Min(count, 6));
        var (shortRuns, shortBytes) = Leavings(format, years: 1);
        var (longRuns, longBytes) = Leavings(format, years: 6);
        return (longBytes - shortBytes) / (double)(longRuns - shortRuns);
    }

    /// <summary>Runs of some years, and bytes for the collector of writing them beyond those of expanding them.</summary>
    private static (long Runs, long Bytes) Leavings(OutputFormat format, int years)
    {
        var timetable = Timetable.Of(HandMadeSite.Full, new Horizon(Year.Horizon.From, Year.Horizon.From.PlusYears(years)));
        Write(timetable, format, Stream.Null);
        var start = GC.GetAllocatedBytesForCurrentThread();
        var runs = timetable.Runs().LongCount();
        if (format != OutputFormat.Csv)
        {
            _ = timetable.Openings().LongCount() + timetable.Switchings().LongCount();
            _ = HeldRun.First(timetable, Limits.TakenRuns, _ => true);
        }

        var expanded = GC.GetAllocatedBytesForCurrentThread();
        Write(timetable, format, Stream.Null);
        return (runs, GC.GetAllocatedBytesForCurrentThread() - expanded - (expanded - start));
    }

    private static string SiteHash(Timetable timetable) => JsonNode.Parse(Write(timetable, OutputFormat.Json))!["site"]!["sha256"]!.GetValue<string>();

    private static string Write(Timetable timetable, OutputFormat format, OutputOptions? options = null)
    {
        var output = new MemoryStream();
        TimetableOutput.Write(timetable, format, options ?? Options, output);
        return Encoding.UTF8.GetString(output.ToArray());
    }

    private static void Write(Timetable timetable, OutputFormat format, Stream output) => TimetableOutput.Write(timetable, format, Options, output);

    private static void HoldAgainstSchema(string json)
    {
        var results = Schema.Evaluate(JsonDocument.Parse(json).RootElement, new EvaluationOptions { OutputFormat = Json.Schema.OutputFormat.List });
        var errors = (results.Details ?? []).Where(detail => detail.Errors is not null)
            .SelectMany(detail => detail.Errors!.Select(error => $"{detail.InstanceLocation}: {error.Value}"));
        Assert.True(results.IsValid, string.Join('\n', errors.Take(20)));
    }

    /// <summary>Whether a 1.1 reader takes it for the number that it is: no leading zero, no colon, no underscore.</summary>
    private static bool IsSameNumber(string scalar) => DecimalNumber().IsMatch(scalar);

    [GeneratedRegex(@"^-?(0|[1-9][0-9]*)(\.[0-9]+)?$")]
    private static partial Regex DecimalNumber();

    [GeneratedRegex(
        @"^(y|Y|yes|Yes|YES|n|N|no|No|NO|true|True|TRUE|false|False|FALSE|on|On|ON|off|Off|OFF)$"
        + @"|^[-+]?([0-9][0-9_]*)?\.[0-9.]*([eE][-+][0-9]+)?$|^[-+]?[0-9][0-9_]*(:[0-5]?[0-9])+(\.[0-9_]*)?$|^[-+]?\.(inf|Inf|INF)$|^\.(nan|NaN|NAN)$"
        + @"|^[-+]?0b[0-1_]+$|^[-+]?0[0-7_]+$|^[-+]?(0|[1-9][0-9_]*)$|^[-+]?0x[0-9a-fA-F_]+$"
        + @"|^<<$|^=$|^~$|^null$|^Null$|^NULL$|^$|^[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}")]
    private static partial Regex TakenForSomethingElse();
}
