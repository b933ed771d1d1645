using System.Text;
using System.Text.Json;
using WaterScript.Documents.Reports;
using WaterScript.Linting.Engine;
using WaterScript.Text.Lines;

namespace WaterScript.Fuzz.Stages;

/// <summary>What checking finds, in each form of report.</summary>
internal sealed class CheckStage : IStage
{
    public string Name => "check";

    public bool Run(SiteInHand site, SiteInHand original)
    {
        var check = site.Checked;
        foreach (var finding in check.Findings) Places.Check(finding);
        foreach (var accepted in check.Accepted) Places.Check(accepted.Finding);
        IsJson(stream => JsonReport.Write([check], showsAccepted: true, stream), "the report in JSON is JSON");
        IsJson(stream => SarifReport.Write([check], showsAccepted: true, new ReportingProgram("0.1.0", Home: null), stream), "the report in SARIF is JSON");
        GithubLines(check);
        var text = new StringWriter();
        new FindingPrinter(new PlainLines(text)).Print(check.Findings);
        Must.Hold(check.Findings.Length == 0 || text.ToString().Length > 0, "a finding is printed");
        return site.Sound is not null;
    }

    /// <summary>One command a finding: a line end in a name must not begin one of its own.</summary>
    private static void GithubLines(CheckedSite check)
    {
        var lines = Written(stream => GithubReport.Write([check], stream)).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Must.Hold(lines.All(line => line.StartsWith("::error ", StringComparison.Ordinal) || line.StartsWith("::warning ", StringComparison.Ordinal)
            || line.StartsWith("::notice ", StringComparison.Ordinal)), "the report for GitHub has commands only");
        Must.Equal(check.Findings.Length, lines.Length, "the report for GitHub has a line for each finding");
    }

    /// <summary>What is written as text; it is UTF-8.</summary>
    internal static string Written(Action<Stream> write)
    {
        using var stream = new MemoryStream();
        write(stream);
        return new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(stream.ToArray());
    }

    /// <summary>Checks that something is JSON, and hands out its text.</summary>
    internal static string IsJson(Action<Stream> write, string what)
    {
        var text = Written(write);
        try
        {
            using var document = JsonDocument.Parse(text);
        }
        catch (JsonException problem)
        {
            throw new BrokenException(what, problem.Message);
        }

        return text;
    }
}
