using System.Collections.Immutable;
using System.Text.RegularExpressions;
using WaterScript.Linting.Engine;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Simulation;

namespace WaterScript.Fuzz.Inputs;

/// <summary>What inputs are made of: the examples, the sites on the pages of the rules and of the docs, those in the tests, and some at random.</summary>
internal sealed partial class Corpus
{
    private const int RandomSites = 48;
    private const int LongestFile = 12_000;

    private Corpus(IEnumerable<SiteFiles> sites)
    {
        Sites = [.. sites.Where(site => site.RootText.Length <= LongestFile)];
        Whole = [.. Sites.Where(site => IsWhole(site.RootText))];
        Texts = [.. Sites.SelectMany(site => site.Files.Keys.Select(site.TextOf)).Distinct(StringComparer.Ordinal)];
        Words = [.. Texts.SelectMany(text => Word().Matches(text).Select(word => word.Value)).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];
    }

    /// <summary>The sites, in an order that depends on the repository alone.</summary>
    public ImmutableArray<SiteFiles> Sites { get; }

    /// <summary>Those that water something, as far as can be reported without the compiler.</summary>
    public ImmutableArray<SiteFiles> Whole { get; }

    /// <summary>The texts of all their files.</summary>
    public ImmutableArray<string> Texts { get; }

    /// <summary>All words, numbers and signs in them.</summary>
    public ImmutableArray<string> Words { get; }

    /// <summary>That of the repository which the program was built from.</summary>
    public static Corpus Read() => new([.. Examples(), .. Rules(), .. Pages(), .. Tests(), .. Cases(), .. AtRandom()]);

    private static bool IsWhole(string text) =>
        new[] { "site ", "zone ", "schedule ", "steps" }.All(word => text.Contains(word, StringComparison.Ordinal))
            && text.Count(letter => letter == '{') == text.Count(letter => letter == '}');

    private static IEnumerable<SiteFiles> Examples()
    {
        foreach (var path in Repository.ExampleFiles.Where(path => Repository.Read(path).Contains("\nsite ", StringComparison.Ordinal)))
        {
            var folder = path[..(path.LastIndexOf('/') + 1)];
            var files = folder == "examples/" ? [path] : Repository.ExampleFiles.Where(file => file.StartsWith(folder, StringComparison.Ordinal));
            yield return new SiteFiles(path, path[folder.Length..],
                SiteFiles.Empty.AddRange(files.Select(file => KeyValuePair.Create(file[folder.Length..], Bytes(file)))));
        }
    }

    private static IEnumerable<SiteFiles> Rules() => RuleCatalogue.Rules
        .SelectMany(rule => new[] { (rule.Slug, Text: rule.Fires), (rule.Slug + " corrected", Text: rule.Fixed) })
        .Where(page => page.Text.Length > 0)
        .Select(page => SiteFiles.Of($"rule {page.Item1}", page.Text.ReplaceLineEndings("\n")));

    private static IEnumerable<SiteFiles> Pages()
    {
        foreach (var page in FencedBlock.InPages("water").GroupBy(block => block.Page))
        {
            var included = Snippet.Included(page);
            foreach (var snippet in Snippet.Of([.. page]))
            {
                var site = SiteFiles.Of(snippet.ToString(), snippet.Text);
                foreach (var (path, text) in included) site = site.With(path, text);
                yield return site;
            }
        }
    }

    /// <summary>Sites that stand in tests as raw strings.</summary>
    private static IEnumerable<SiteFiles> Tests() => TestFiles("*.cs")
        .SelectMany(path => RawString().Matches(Repository.Read(path))
            .Select((match, index) => (Name: $"{path} {index + 1}", Text: match.Groups["text"].Value)))
        .Where(test => test.Text.Contains("zone ", StringComparison.Ordinal) || test.Text.Contains("schedule ", StringComparison.Ordinal))
        .Select(test => SiteFiles.Of(test.Name, test.Text.ReplaceLineEndings("\n")));

    private static IEnumerable<SiteFiles> Cases() => TestFiles("*.water").Select(path => SiteFiles.Of(path, Bytes(path)));

    private static IEnumerable<SiteFiles> AtRandom() =>
        Enumerable.Range(0, RandomSites).Select(number => SiteFiles.Of($"random site {number}", RandomSource.Of(number).Text));

    private static IEnumerable<string> TestFiles(string pattern)
    {
        var tests = Path.Combine(Repository.Root, "tests");
        return Directory.EnumerateFiles(tests, pattern, SearchOption.AllDirectories)
            .Select(path => Path.GetRelativePath(Repository.Root, path).Replace('\\', '/'))
            .Where(path => !path.Contains("/obj/", StringComparison.Ordinal) && !path.Contains("/bin/", StringComparison.Ordinal)
                && !path.StartsWith(CaseFolder.Name, StringComparison.Ordinal))
            .Order(StringComparer.Ordinal);
    }

    private static byte[] Bytes(string path) => File.ReadAllBytes(Path.Combine(Repository.Root, path));

    [GeneratedRegex("\"{3,}\n(?<text>.*?)\n *\"{3,}", RegexOptions.Singleline | RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant)]
    private static partial Regex RawString();

    [GeneratedRegex("""[A-Za-z][A-Za-z0-9_/%-]*|[0-9][0-9.:/-]*|"[^"\n]*"|[^\sA-Za-z0-9"]""", RegexOptions.CultureInvariant)]
    private static partial Regex Word();
}
