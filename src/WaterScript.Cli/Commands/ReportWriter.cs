using System.Collections.Immutable;
using WaterScript.Documents.Reports;
using WaterScript.Linting.Engine;
using WaterScript.Text.Lines;

namespace WaterScript.Cli.Commands;

/// <summary>Writes what checks found, in the form that is asked for.</summary>
/// <param name="form">What <c>--report</c> says.</param>
/// <param name="options">What is shown.</param>
internal sealed class ReportWriter(ReportForm form, TextReportOptions options)
{
    /// <summary>Whether it is for people.</summary>
    public bool IsText => form == ReportForm.Text;

    /// <summary>Writes all of it.</summary>
    public void Write(ImmutableArray<CheckedSite> sites, Stream output)
    {
        switch (form)
        {
            case ReportForm.Json:
                JsonReport.Write(sites, options.ShowsAccepted, output);
                break;
            case ReportForm.Sarif:
                SarifReport.Write(sites, options.ShowsAccepted, ThisProgram.ForReports, output);
                break;
            case ReportForm.Github:
                GithubReport.Write(sites, output);
                break;
            default:
                WriteText(sites, output);
                break;
        }
    }

    private void WriteText(ImmutableArray<CheckedSite> sites, Stream output)
    {
        PlainLines.WriteTo(output, lines =>
        {
            var report = new TextReport(lines, options with { ShowsAll = true });
            foreach (var site in sites) report.Print(site);
            report.Finish();
        });
    }
}
