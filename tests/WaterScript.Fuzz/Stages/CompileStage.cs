using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using WaterScript.Documents.Timetables;
using WaterScript.Tests.Documents;

namespace WaterScript.Fuzz.Stages;

/// <summary>The timetable as YAML, JSON and CSV: all say the same, counts and hashes are true, and time goes forwards.</summary>
internal sealed class CompileStage : IStage
{
    public string Name => "compile";

    public bool Run(SiteInHand site, SiteInHand original)
    {
        if (site.Sound is null || DeviceListStage.IsRefused(site, controller: null, isForDevice: false) || !site.FitsInTrees) return false;
        var json = JsonNode.Parse(Document(site, OutputFormat.Json, null))!;
        var yaml = Trees.FromYaml(Document(site, OutputFormat.Yaml, null));
        Must.Hold(JsonNode.DeepEquals(json, yaml), "YAML and JSON say the same");
        InOrder(json);
        CheckList(site, json, TimetableList.Runs, "runs", "sha256");
        CheckList(site, json, TimetableList.Openings, "openings", "openings_sha256");
        if (!DeviceListStage.IsRefused(site, controller: null, isForDevice: true)) CheckList(site, json, TimetableList.Switchings, "switchings",
            "switchings_sha256");
        return true;
    }

    internal static string Document(SiteInHand site, OutputFormat format, TimetableList? only) =>
        CheckStage.Written(stream => TimetableOutput.Write(site.Timetable, format, new OutputOptions { Only = only }, stream));

    /// <summary>Runs and openings are in order, and an output that is on is not opened.</summary>
    private static void InOrder(JsonNode json)
    {
        var before = DateTimeOffset.MinValue;
        foreach (var run in json["runs"]!.AsArray())
        {
            var (from, to) = (Time(run!, "from"), Time(run!, "to"));
            Must.Hold(from >= before, "runs are in order", run!.ToJsonString());
            Must.Hold(to > from, "a run lasts", run!.ToJsonString());
            before = from;
        }

        var ends = new Dictionary<(string, long), DateTimeOffset>();
        before = DateTimeOffset.MinValue;
        foreach (var opening in json["openings"]!.AsArray())
        {
            var (from, to) = (Time(opening!, "from"), Time(opening!, "to"));
            Must.Hold(from >= before, "openings are in order", opening!.ToJsonString());
            Must.Hold(to > from, "an opening lasts", opening!.ToJsonString());
            before = from;
            if (opening!["output"] is not { } output) continue;
            var key = ((string)opening["controller"]!, output.GetValue<long>());
            Must.Hold(!ends.TryGetValue(key, out var end) || end <= from, "openings of an output do not overlap", opening.ToJsonString());
            ends[key] = to;
        }
    }

    private static void CheckList(SiteInHand site, JsonNode json, TimetableList list, string name, string hash)
    {
        var text = Document(site, OutputFormat.Csv, list);
        var rows = CsvReader.Read(text);
        var end = rows[^1];
        Must.Equal("end", end[0], "a table ends with its closing row");
        Must.Hold(rows.All(row => row.Length == rows[0].Length), "rows of a table have as many fields as its header");
        Must.Equal(rows.Count - 2, int.Parse(end[1], CultureInfo.InvariantCulture), "a table has as many rows as it says");
        Must.Equal(json[name]!.AsArray().Count, rows.Count - 2, "a table has as many rows as the document");
        Must.Equal(json["end"]![name]!.GetValue<int>(), rows.Count - 2, "a document has as many rows as it says");
        Must.Equal((string?)json["end"]![hash], end[2], "a table and the document have the same hash");
        if (list != TimetableList.Switchings) Must.Equal(HashOf(text), end[2], "a table's hash is that of its lines");
    }

    /// <summary>
    /// The hash by the page about carrying out a timetable: all of it, with the hash in the closing row, and the four fields behind the times, left empty.
    /// </summary>
    internal static string HashOf(string table)
    {
        var closing = table.LastIndexOf("\r\n", table.Length - 3, StringComparison.Ordinal) + 2;
        var fields = table[closing..].Split(',');
        foreach (var index in (int[])[2, 5, 6, 7, 8]) fields[index] = index == fields.Length - 1 ? "\r\n" : "";
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(table[..closing] + string.Join(',', fields))));
    }

    private static DateTimeOffset Time(JsonNode entry, string field) => DateTimeOffset.Parse((string)entry[field]!, CultureInfo.InvariantCulture);
}
