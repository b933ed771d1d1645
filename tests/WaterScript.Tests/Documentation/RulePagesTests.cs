using NodaTime;
using WaterScript.Documents.Reports;
using WaterScript.Linting.Engine;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>
/// <c>docs/rules/</c> is written from the rules: <c>WATERSCRIPT_WRITE_PAGES=1 dotnet test --filter RulePages</c> writes it, and without
/// that a page that is stale, missing or left over fails.
/// </summary>
public class RulePagesTests
{
    private const string Folder = "docs/rules";

    private static bool IsWriting => Environment.GetEnvironmentVariable("WATERSCRIPT_WRITE_PAGES") == "1";

    [Fact]
    public void The_pages_of_the_rules_are_what_the_rules_say()
    {
        var pages = RuleCatalogue.Rules.ToDictionary(
            rule => $"{rule.Slug}.md",
            rule => RulePage.Of(rule, RuleExample.Finding(rule, DateTimeZoneProviders.Tzdb)));
        pages["README.md"] = RuleIndex.Page();
        var folder = Path.Combine(Repository.Root, Folder);
        if (IsWriting) Write(folder, pages);

        var stale = pages.Where(page => TextOf(Path.Combine(folder, page.Key)) != page.Value).Select(page => page.Key);
        var left = Directory.EnumerateFiles(folder).Select(file => Path.GetFileName(file)!).Where(name => !pages.ContainsKey(name));
        Assert.Empty(stale.Concat(left));
    }

    private static void Write(string folder, Dictionary<string, string> pages)
    {
        if (Directory.Exists(folder)) Directory.Delete(folder, recursive: true);
        Directory.CreateDirectory(folder);
        foreach (var (name, text) in pages) File.WriteAllText(Path.Combine(folder, name), text);
    }

    private static string? TextOf(string file) => File.Exists(file) ? File.ReadAllText(file).ReplaceLineEndings("\n") : null;
}
