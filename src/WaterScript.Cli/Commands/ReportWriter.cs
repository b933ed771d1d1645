using System.Collections.Immutable;
using WaterScript.Documents.Reports;
using WaterScript.Linting.Engine;
using WaterScript.Text.Lines;

namespace WaterScript.Cli.Commands;

/// <summary>Writes what checks found, in the form that is asked for.</summary>
/// <param name="form">What <c>--report</c> says.</param>
/// <param name="showsAccepted">Whether what is accepted is shown too.</param>
internal sealed class ReportWriter(string form, bool showsAccepted)
{
    /// <summary>The form for people.</summary>
    public const string Text = "text";

    private static readonly string[] Forms = [Text, "json", "sarif", "github"];

    /// <summary>Whether it is for people.</summary>
    public bool IsText => form == Text;

    /// <summary>Whether what is accepted is shown too.</summary>
    public bool ShowsAccepted => showsAccepted;

    /// <summary>The form that a word asks for.</summary>
    /// <exception cref="CommandException">There is no such form.</exception>
    public static ReportWriter Of(string? word, bool showsAccepted) => new(ReportForm.Of(word, Forms), showsAccepted);

    /// <summary>Writes all of it.</summary>
    public void Write(ImmutableArray<CheckedSite> sites, Stream output)
    {
        switch (form)
        {
            case "json":
                JsonReport.Write(sites, showsAccepted, output);
                break;
            case "sarif":
                SarifReport.Write(sites, showsAccepted, Version(), output);
                break;
            case "github":
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
            var report = new TextReport(lines, showsAccepted);
            foreach (var site in sites) report.Print(site);
        });
    }

    /// <summary>The version of this program: <c>0.1.0</c>.</summary>
    private static string Version() => typeof(ReportWriter).Assembly.GetName().Version!.ToString(fieldCount: 3);
}
