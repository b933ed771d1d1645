using System.Text.RegularExpressions;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>The index of the pages has every page, and nothing that is not there.</summary>
public sealed partial class IndexTests
{
    private const string Folder = "docs";

    private static readonly string[] Targets =
        [.. Links().Matches(Repository.Read($"{Folder}/README.md")).Select(link => link.Groups["target"].Value.Split('#')[0]).Distinct()];

    /// <summary>The pages and schemas of the folder. The page of each rule is in an index of its own.</summary>
    public static TheoryData<string> Pages =>
    [
        .. Repository.FilesUnder(Folder).Select(path => path[(Folder.Length + 1)..])
            .Where(path => Path.GetExtension(path) is ".md" or ".json")
            .Where(path => path != "README.md" && (!path.StartsWith("rules/", StringComparison.Ordinal) || path == "rules/README.md")),
    ];

    [Theory]
    [MemberData(nameof(Pages))]
    public void A_page_is_in_the_index(string page) => Assert.Contains(page, Targets);

    [Fact]
    public void What_the_index_has_is_there() =>
        Assert.All(Targets, target => Assert.True(Path.Exists(Path.Combine(Repository.Root, Folder, target)), target));

    [GeneratedRegex(@"\]\((?<target>[^)\s]+)\)")]
    private static partial Regex Links();
}
