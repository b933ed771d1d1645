using WaterScript.Documents.Reports;
using Xunit;

namespace WaterScript.Tests.Documents.Reports;

/// <summary>Escapes are those that the runner takes back: % CR LF in the message, and : , in properties too (from memory of the runner's toolkit).</summary>
public class GithubReportTests
{
    [Fact]
    public void A_finding_is_a_line_with_its_place()
    {
        var lines = Report(Checked.Findings);
        Assert.Equal(2, lines.Length);
        Assert.StartsWith("::notice file=site.water,line=7,endLine=7,col=26,endColumn=30,title=", lines[0], StringComparison.Ordinal);
        Assert.StartsWith(
            "::warning file=site.water,line=5,endLine=5,col=12,endColumn=16,title=the clock skips 01%3A30 on Sun 29 Mar 2026 [skipped-time]"
                + "::the clock skips 01:30",
            lines[1],
            StringComparison.Ordinal);
        Assert.Contains("%0AFix: ", lines[1], StringComparison.Ordinal);
    }

    [Fact]
    public void No_text_of_a_source_can_begin_a_command_or_a_property()
    {
        var line = Assert.Single(Report(
            "site garden { timezone Europe/Lisbon; effective 2026-03-01 }\nzone lawn \"50 %, a:b\\n::error::no\" { output 1; colour 3 }\n",
            "a,b:c 100%.water"));
        Assert.StartsWith("::error file=a%2Cb%3Ac 100%25.water,line=2,", line, StringComparison.Ordinal);
    }

    private static string[] Report(string text, string path = "site.water") =>
        Checked.Written(stream => GithubReport.Write([Checked.Of(text, path)], stream)).TrimEnd('\n').Split('\n');
}
