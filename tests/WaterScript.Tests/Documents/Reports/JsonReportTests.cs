using System.Text.Json.Nodes;
using WaterScript.Documents.Reports;
using Xunit;

namespace WaterScript.Tests.Documents.Reports;

public class JsonReportTests
{
    [Fact]
    public void A_finding_says_what_where_when_and_what_to_do()
    {
        var site = Report(Checked.Findings, showsAccepted: true);
        var finding = site["findings"]!.AsArray().Single(finding => finding!["rule"]!.GetValue<string>() == "skipped-time")!;

        Assert.Equal("warning", Text(finding, "severity"));
        Assert.Equal("""{"file":"site.water","line":5,"column":12,"end_line":5,"end_column":17,"label":"runs at 02:30 that day"}""",
            finding["place"]!.ToJsonString());
        Assert.Equal("""{"first":"2026-03-29","last":"2027-03-28","times":2,"days":2,"decided":"over-horizon"}""", finding["happens"]!.ToJsonString());
        Assert.Equal("Start outside the skipped hour, or accept it: no watering is lost.", Text(finding, "help"));
        Assert.Equal("the first is meant, \"always\"", Text(Assert.Single(site["accepted"]!.AsArray())!, "because"));
        Assert.Equal("""{"errors":0,"warnings":1,"advice":1,"accepted":1,"in_baseline":0}""", site["tally"]!.ToJsonString());
    }

    [Fact]
    public void What_a_hold_takes_stands_in_it_one_by_one_with_the_lines_and_so_does_the_sun()
    {
        const string text = """
            site s { timezone Europe/Lisbon; effective 2026-06-01; location 38.72 N 9.14 W }
            zone a { output 1 }
            hold a from 2026-06-02 to 2026-06-04 because "fair"
            schedule s { every day; start at 20:00; steps { water a for 10 min } }
            """;
        var site = Report(text, showsAccepted: false);

        Assert.Equal(
            [
                "2026-06-02T20:00:00+01:00 2026-06-02T20:10:00+01:00 a s 1 4 hold fair 3",
                "2026-06-03T20:00:00+01:00 2026-06-03T20:10:00+01:00 a s 1 4 hold fair 3",
                "2026-06-04T20:00:00+01:00 2026-06-04T20:10:00+01:00 a s 1 4 hold fair 3",
            ],
            site["taken"]!.AsArray().Select(run => $"{run!["from"]} {run["to"]} {run["zone"]} {run["schedule"]} {run["step"]} {run["step_at"]!["line"]} " +
                $"{run["by"]} {run["because"]} {run["place"]!["line"]}"));
        var finding = site["findings"]!.AsArray().Single(each => (string?)each!["rule"] == "cut-by-hold")!;
        Assert.Equal(("2026-06-02T20:00:00", "2026-06-04T20:00:00", 3, 3), ((string?)finding["happens"]!["first"], (string?)finding["happens"]!["last"],
            (int)finding["happens"]!["times"]!, (int)finding["happens"]!["days"]!));
        Assert.Equal(365, site["sun"]!.AsArray().Count);
        Assert.Equal("2026-06-01", (string?)site["sun"]![0]!["day"]);
    }

    [Fact]
    public void A_fix_is_a_list_of_edits()
    {
        var finding = Report(Checked.Findings)["findings"]!.AsArray().Single(finding => finding!["rule"]!.GetValue<string>() == "unusual-form")!;

        Assert.True(finding["fix"]!["safe"]!.GetValue<bool>());
        Assert.Equal("""[{"file":"site.water","line":7,"column":26,"end_line":7,"end_column":31,"replacement":"10 min"}]""",
            finding["fix"]!["edits"]!.ToJsonString());
    }

    [Fact]
    public void A_site_that_cannot_be_read_says_that_nothing_was_looked_at()
    {
        var site = Report(Checked.Mistakes);
        Assert.Null(site["checked"]);
        Assert.Equal(2, site["tally"]!["errors"]!.GetValue<int>());
    }

    [Fact]
    public void What_was_looked_at_stands_in_it()
    {
        var looked = Report(Checked.Findings)["checked"]!;
        Assert.Equal(("2026-03-01", "2028-03-01"), (Text(looked, "from"), Text(looked, "until")));
        Assert.Contains(looked["areas"]!.AsArray(), area => area!.GetValue<string>() == "days and times");
    }

    [Fact]
    public void What_is_decided_beyond_it_stands_in_it_and_with_each_finding_of_it()
    {
        var site = Report(Checked.MeetingsToCome);
        Assert.Equal("""{"until":"2426-03-01","but_for":["dawn"],"all_pairs":true}""", site["checked"]!["decided"]!.ToJsonString());
        Assert.Equal(
            [("2032-02-29", "over-400-years"), ("2484-10-01", "for-ever")],
            site["findings"]!.AsArray().Where(finding => Text(finding!, "rule") == "zone-twice").Select(finding => finding!["happens"]!)
                .Select(happens => (Text(happens, "first")[..10], Text(happens, "decided"))));
    }

    private static string Text(JsonNode node, string key) => node[key]!.GetValue<string>();

    private static JsonNode Report(string text, bool showsAccepted = false) =>
        JsonNode.Parse(Checked.Written(stream => JsonReport.Write([Checked.Of(text)], showsAccepted, stream)))!["sites"]![0]!;
}
