using System.Globalization;
using WaterScript.Editing.Names;
using WaterScript.Linting.Engine;
using WaterScript.Wording;

namespace WaterScript.Editing.Cards;

/// <summary>What a rule finds, and what a line that names it accepts.</summary>
internal static class RuleCard
{
    /// <summary>The card of a rule; null for one that there is not.</summary>
    public static Card? Of(NameUse use, EditedSite site)
    {
        if (RuleCatalogue.Find(use.Name) is not { } rule) return null;
        return Card.Of(use.Where.Span, rule.Slug, $" ({FindingSummary.WordOf(rule.Severity)}): {rule.Title}", AcceptedBy(use, site),
            $"{CommandLineOf(rule.Slug)}");
    }

    private static string CommandLineOf(string slug) => $"More: waterscript explain {slug}";

    private static string? AcceptedBy(NameUse use, EditedSite site)
    {
        if (site.Lint is not { } lint) return null;
        var lines = lint.Accepted.Where(accepted => accepted.Acceptance.Rule == use.Where).Select(accepted => accepted.Finding.Primary.Location.Start.Line)
            .Order().ToList();
        return lines.Count switch
        {
            0 => null,
            1 => string.Create(CultureInfo.InvariantCulture, $"Accepts 1 finding here: line {lines[0]}"),
            _ => string.Create(CultureInfo.InvariantCulture,
                $"Accepts {lines.Count} findings here: lines {string.Join(", ", lines.Take(lines.Count - 1))} and {lines[^1]}"),
        };
    }
}
