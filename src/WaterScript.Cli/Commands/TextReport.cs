using WaterScript.Diagnostics;
using WaterScript.Documents.Reports;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Text.Lines;

namespace WaterScript.Cli.Commands;

/// <summary>What checks found, for people to read.</summary>
/// <param name="lines">Where to.</param>
/// <param name="showsAccepted">Whether what is accepted is shown too.</param>
/// <param name="isQuiet">Whether there is no verdict.</param>
/// <param name="showsAll">Whether all of a rule are shown, however many there are.</param>
internal sealed class TextReport(PlainLines lines, bool showsAccepted, bool isQuiet, bool showsAll)
{
    private readonly FindingPrinter _printer = new(lines) { ShowsAll = showsAll };

    /// <summary>Prints what was found in a site, and the verdict.</summary>
    public void Print(CheckedSite site)
    {
        _printer.Print(site.Findings);
        if (showsAccepted) PrintAccepted(site);
        if (isQuiet) return;
        foreach (var line in Verdict.Of(site)) lines.Line(line);
    }

    private void PrintAccepted(CheckedSite site)
    {
        foreach (var (finding, acceptance) in site.Accepted)
            _printer.PrintAccepted(finding, new Label(Accepting(acceptance), $"\"{acceptance.Because}\""));
    }

    /// <summary><c>accept RULE</c>, without the reason, which stands behind the mark.</summary>
    private static Location Accepting(Acceptance acceptance) =>
        acceptance.Origin with { Span = TextSpan.FromBounds(acceptance.Origin.Span.Start, acceptance.Rule.Span.End) };
}
