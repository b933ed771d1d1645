using System.Globalization;
using NodaTime;
using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Text;
using WaterScript.Text.Lines;

namespace WaterScript.Documents.Reports;

/// <summary>The site that a rule shows as an example, checked, so that its page has the finding as it is printed.</summary>
internal static class RuleExample
{
    private const string Path = "site.water";

    /// <summary>What the rule finds in its example, as a terminal shows it; empty for a rule without one.</summary>
    /// <param name="rule">The rule.</param>
    /// <param name="timeZones">Where the time zone of the example comes from.</param>
    public static string Finding(Rule rule, IDateTimeZoneProvider timeZones)
    {
        ArgumentNullException.ThrowIfNull(rule);
        if (rule.Fires.Length == 0) return "";
        var source = SourceText.From(Path, rule.Fires.ReplaceLineEndings("\n").TrimEnd('\n') + "\n");
        var check = CheckedSite.Of(Path, SiteReader.Read(source, Path, new NoFiles(), timeZones));
        var text = new StringWriter(CultureInfo.InvariantCulture);
        new FindingPrinter(new PlainLines(text)).Print(check.Findings.First(finding => finding.Rule.Slug == rule.Slug));
        return text.ToString().TrimEnd('\n');
    }

    private sealed class NoFiles : ISourceReader
    {
        public SourceText? Read(string path) => null;
    }
}
