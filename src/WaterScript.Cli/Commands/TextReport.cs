using WaterScript.Diagnostics;
using WaterScript.Documents.Reports;
using WaterScript.Documents.Verdicts;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Text.Lines;

namespace WaterScript.Cli.Commands;

/// <summary>What checks found, for people to read, and the verdict: of one site, or of all of them.</summary>
/// <param name="lines">Where to.</param>
/// <param name="options">What is shown.</param>
internal sealed class TextReport(PlainLines lines, TextReportOptions options)
{
    private readonly FindingPrinter _printer = new(lines) { ShowsAll = options.ShowsAll };
    private readonly SitesVerdict _all = new();
    private readonly RuleVerdict? _rules = options.Rules.IsEmpty ? null : new RuleVerdict(options.Rules);

    /// <summary>What was shown: of a file that several sites share, once.</summary>
    private readonly HashSet<(string Rule, string Heading, (string File, int Start) Place, (string File, int Start) By)> _accepted = [];
    private CheckedSite? _only;
    private int _sites;

    /// <summary>Prints what was found in a site.</summary>
    public void Print(CheckedSite site)
    {
        if (_only is not null) PrintMissing(_only);
        _printer.Print(site.Findings);
        if (options.ShowsAccepted) PrintAccepted(site);
        _all.Add(site);
        _rules?.Add(site);
        _only = ++_sites == 1 ? site : null;
        if (_sites > 1) PrintMissing(site);
    }

    /// <summary>Prints the verdict, when all sites are there.</summary>
    public void Finish()
    {
        if (_rules is not null && !options.IsQuiet && _sites > 0) PrintLines([_rules.Line()]);
        else if (_rules is not null) return;
        else if (_only is not null) Finish(_only);
        else if (_sites > 1 && !options.IsQuiet) PrintLines(_all.Lines());
    }

    private void Finish(CheckedSite site)
    {
        if (!options.IsQuiet) PrintLines(Verdict.Of(site, options.ListsMissing));
        else if (options.ListsMissing) PrintLines(MissingLines.Of(site));
    }

    /// <summary>Of several sites, what one was not checked for follows what was found in it.</summary>
    private void PrintMissing(CheckedSite site)
    {
        if (options.ListsMissing) PrintLines(MissingLines.Of(site, isOneOfMany: true));
    }

    private void PrintLines(IEnumerable<string> verdict)
    {
        foreach (var line in verdict.SelectMany(line => WordWrap.Of(line, options.Columns))) lines.Line(line);
    }

    private void PrintAccepted(CheckedSite site)
    {
        foreach (var (finding, acceptance) in site.Accepted)
        {
            if (_accepted.Add((finding.Rule.Slug, finding.Heading, SpotOf(finding.Primary.Location), SpotOf(acceptance.Origin))))
                _printer.PrintAccepted(finding, new Label(Accepting(acceptance), $"\"{acceptance.Because}\""));
        }
    }

    private static (string File, int Start) SpotOf(Location place) => (place.Source.Path, place.Span.Start);

    /// <summary><c>accept RULE</c>, without the reason, which stands behind the mark.</summary>
    private static Location Accepting(Acceptance acceptance) =>
        acceptance.Origin with { Span = TextSpan.FromBounds(acceptance.Origin.Span.Start, acceptance.Rule.Span.End) };
}
