using System.Text.Json;
using WaterScript.Tests.Cli;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Documents.Charts;
using Xunit;

namespace WaterScript.Tests.Playground;

/// <summary>
/// The page in a browser: it finds what the program finds, of all examples and cases, draws, corrects a typo by a click, restores what a link holds, asks
/// nobody else for anything, works without a network on the second visit, and is well made for a phone, in light and dark, and for who cannot see it.
/// </summary>
public sealed class PlaygroundTests : Workshop
{
    private const string SiteFile = "site.water";

    [PlaygroundFact]
    public void The_page_does_all_that_it_is_for()
    {
        var sites = Examples().Concat(Cases()).ToList();
        Assert.True(sites.Count > 200);
        var list = Write("sites.json", JsonSerializer.Serialize(sites, SiteContext.Default.ListExpectedSite));

        Assert.Equal(("", "", 0), Browser.Run(Browser.Playground, [PlaygroundFactAttribute.Page, list]));
    }

    private IEnumerable<ExpectedSite> Examples()
    {
        foreach (var path in Repository.ExampleFiles.Where(path => path.Count(letter => letter == '/') == 1))
            yield return Expected(path, SiteFile, new Dictionary<string, string> { [SiteFile] = Repository.Read(path) }, hasCalendar: true);
        var park = Repository.ExampleFiles.Where(path => path.StartsWith("examples/park/", StringComparison.Ordinal))
            .ToDictionary(path => Path.GetFileName(path), Repository.Read);
        yield return Expected("park", "park.water", park, hasCalendar: true);
    }

    private IEnumerable<ExpectedSite> Cases() => Repository.FilesUnder("tests/Cases").Where(path => path.EndsWith(".water", StringComparison.Ordinal)
        && !path.Contains("/fuzz/", StringComparison.Ordinal)).Order(StringComparer.Ordinal)
        .Select(path => Expected(path, SiteFile, new Dictionary<string, string> { [SiteFile] = Repository.Read(path) }, hasCalendar: false));

    /// <summary>What the program says of a site, in a folder of its own.</summary>
    private ExpectedSite Expected(string name, string root, Dictionary<string, string> files, bool hasCalendar)
    {
        var folder = name.Replace('/', '-');
        foreach (var (path, text) in files) Write($"{folder}/{path}", text);
        var at = PathOf(folder);
        return new ExpectedSite(name, root, files, WaterscriptProgram.Run(at, "check", root, "--report", "json").Output,
            hasCalendar ? WaterscriptProgram.Run(at, "compile", root, "--to", "icalendar").Output : null);
    }
}
