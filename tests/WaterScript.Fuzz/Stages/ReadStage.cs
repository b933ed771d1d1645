using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Syntax.Tokens;
using WaterScript.Tests.Syntax.Formatting;

namespace WaterScript.Fuzz.Stages;

/// <summary>
/// Text to model: every finding has a place within its file, words, and a rule that can be explained; reading again finds the same. The scanner sees the
/// tokens that the lexer made of the grammar sees.
/// </summary>
internal sealed class ReadStage : IStage
{
    public string Name => "read";

    public bool Run(SiteInHand site, SiteInHand original)
    {
        var reading = site.Reading;
        foreach (var file in reading.Files) Must.Equal(OfGrammar(file.Source.Text), OfScanner(file.Source.Text), "tokens are those of the grammar");
        foreach (var finding in site.Undecoded.Concat(reading.Findings)) Places.Check(finding);
        foreach (var file in reading.Files) Must.Hold(reading.Findings.Count(finding =>
            finding.Severity == Severity.Error && finding.Primary.Location.Source == file.Source) <= Limits.ErrorsPerFile, "errors of a file have a limit");
        var again = new SiteInHand(site.Files, site.Salt).Reading;
        Must.Equal(Words(reading.Findings), Words(again.Findings), "reading again finds the same");
        if (site.Sound is not null) Must.Hold(site.Undecoded.Count > 0 || reading.Files.Length >= 1, "a site has a file");
        return true;
    }

    private static string OfGrammar(string text) =>
        string.Join(' ', RawTokens.Of(text).Select(token => $"{token.Type} {token.StartIndex} {token.Text}"));

    private static string OfScanner(string text)
    {
        var tokens = new List<string>();
        for (var scanner = new Scanner(text); scanner.MoveNext();) tokens.Add($"{scanner.Type} {scanner.Start} {scanner.Text}");
        return string.Join(' ', tokens);
    }

    private static string Words(IEnumerable<Finding> findings) =>
        string.Join('\n', findings.Select(finding =>
            $"{finding.Rule.Slug} {finding.Heading} {finding.Primary.Location.Source.Path} {finding.Primary.Location.Span}"));
}

/// <summary>What holds of every finding.</summary>
internal static class Places
{
    /// <summary>Checks one.</summary>
    public static void Check(Finding finding)
    {
        Must.Hold(finding.Heading.Trim().Length > 0, "a finding has a heading", finding.Rule.Slug);
        Must.Hold(RuleCatalogue.Find(finding.Rule.Slug) == finding.Rule, "a finding's rule can be explained", finding.Rule.Slug);
        foreach (var label in finding.Others.Prepend(finding.Primary)) Check(label.Location, finding);
        if (finding.Fix is not { } fix) return;
        Must.Hold(fix.Title.Trim().Length > 0, "a fix has a title", finding.Rule.Slug);
        foreach (var edit in fix.Edits) Check(edit.Location, finding);
        var ordered = fix.Edits.GroupBy(edit => edit.Location.Source.Path)
            .All(file => file.OrderBy(edit => edit.Location.Span.Start).Zip(file.OrderBy(edit => edit.Location.Span.Start).Skip(1))
            .All(pair => pair.First.Location.Span.End <= pair.Second.Location.Span.Start));
        Must.Hold(ordered, "edits of a fix do not overlap", finding.Heading);
    }

    private static void Check(Text.Location location, Finding finding)
    {
        var (span, text) = (location.Span, location.Source.Text);
        Must.Hold(span.Start >= 0 && span.Start <= span.End && span.End <= text.Length, "a place lies within its file",
            $"{finding.Rule.Slug} {span} of {text.Length}");
    }
}
