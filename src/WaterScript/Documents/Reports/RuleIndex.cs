using System.Text;
using WaterScript.Linting.Engine;
using WaterScript.Wording;

namespace WaterScript.Documents.Reports;

/// <summary>The list of all rules by area, as a page of Markdown beside the pages of the rules.</summary>
internal static class RuleIndex
{
    /// <summary>The page, with LF line ends.</summary>
    public static string Page()
    {
        var page = new StringBuilder(
            "# What can be found\n\nOne page for each rule; `waterscript explain RULE` shows it too. An error keeps `compile` from writing, a warning and " +
            "an advice do not.\n");
        foreach (var category in RuleCategories.All)
        {
            var rules = RuleCatalogue.Rules.Where(rule => rule.Category == category).ToList();
            if (rules.Count == 0) continue;
            var name = RuleCategories.NameOf(category);
            page.Append($"\n## {char.ToUpperInvariant(name[0])}{name[1..]}\n\n| rule | severity | finds |\n| --- | --- | --- |\n");
            foreach (var rule in rules) page.Append($"| [`{rule.Slug}`]({rule.Slug}.md) | {FindingSummary.WordOf(rule.Severity)} | {rule.Title} |\n");
        }

        return page.ToString();
    }
}
