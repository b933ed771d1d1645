using System.Text;
using WaterScript.Diagnostics;
using WaterScript.Wording;

namespace WaterScript.Documents.Reports;

/// <summary>A rule as a page of Markdown: for <c>explain</c>, for <c>docs/rules/</c>, for reports and for editors.</summary>
internal static class RulePage
{
    /// <summary>The page.</summary>
    /// <param name="rule">The rule.</param>
    /// <param name="finding">What it finds in its example, as <see cref="RuleExample"/> prints it; may be empty.</param>
    /// <returns>Markdown with LF line ends that closes with one.</returns>
    public static string Of(Rule rule, string finding = "")
    {
        ArgumentNullException.ThrowIfNull(rule);
        var page = new StringBuilder();
        page.Append($"# {rule.Slug}\n\n{Capital(rule.Title)}. {Capital(FindingSummary.WordOf(rule.Severity))}.\n\n{Lines(rule.Finds)}\n");
        Section(page, "Why it matters", rule.Matters);
        Source(page, "For example", rule.Fires);
        if (finding.Length > 0) page.Append($"\nIt prints:\n\n```\n{finding}\n```\n");
        Source(page, "Fixed", rule.Fixed);
        Section(page, "Fix", rule.FixSafety);
        Section(page, "Known limits", rule.KnownLimits);
        if (rule.CanBeAccepted)
            Section(page, "Where it is meant so", $"`accept {rule.Slug} because \"…\"`, in the block or schedule that it is about, or at the top of the file.");
        Section(page, "Sources", rule.Sources);
        return page.ToString();
    }

    private static void Section(StringBuilder page, string heading, string text)
    {
        if (text.Length > 0) page.Append($"\n## {heading}\n\n{Lines(text)}\n");
    }

    private static void Source(StringBuilder page, string heading, string source)
    {
        if (source.Length > 0) Section(page, heading, $"```\n{Lines(source)}\n```");
    }

    /// <summary>The text with LF line ends and none at its end, whatever the line ends of the file it was compiled from.</summary>
    private static string Lines(string text) => text.ReplaceLineEndings("\n").TrimEnd('\n');

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}
