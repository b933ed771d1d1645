using System.Text.RegularExpressions;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>What the contributors' guide names is there: files, folders, settings and classes of tests.</summary>
public sealed partial class NamedFilesTests
{
    private static readonly string Guide = Repository.Read("DEVELOPERS.md").ReplaceLineEndings("\n");

    private static readonly string[] Files =
    [
        .. Directory.EnumerateFiles(Repository.Root).Select(path => Path.GetFileName(path)!),
        .. new[] { "src", "tests", "grammar", "docs", "examples", ".ci" }.SelectMany(Repository.FilesUnder),
    ];

    /// <summary>What stands as code within a line and looks like a path: it has a stroke, or ends as a file does. NAME and RULE stand for any.</summary>
    public static TheoryData<string> Paths =>
    [
        .. Code().Matches(WithoutBlocks()).SelectMany(match => match.Groups["code"].Value.Split(' '))
            .Where(code => PathLike().IsMatch(code) && !code.Split('/', '.').Any(part => part is "NAME" or "RULE")).Distinct(),
    ];

    /// <summary>Classes of tests, as the guide names them in its text and after <c>--filter</c>.</summary>
    public static TheoryData<string> Classes => [.. TestClass().Matches(Guide).Select(match => match.Value).Distinct()];

    /// <summary>Folders in the list of where things are.</summary>
    public static TheoryData<string> Folders =>
        [.. Folder().Matches(Guide.Split("## Where things are")[1].Split("```")[1]).Select(match => match.Value).Distinct()];

    /// <summary>Variables of the environment.</summary>
    public static TheoryData<string> Settings => [.. Setting().Matches(Guide).Select(match => match.Value).Distinct()];

    [Theory]
    [MemberData(nameof(Paths))]
    [MemberData(nameof(Folders))]
    public void A_path_is_there(string path)
    {
        var pattern = new Regex("(^|/)" + Regex.Escape(path.TrimEnd('/')).Replace(@"\*", "[^/]*", StringComparison.Ordinal) + "($|/)");
        Assert.Contains(Files, pattern.IsMatch);
    }

    [Theory]
    [MemberData(nameof(Classes))]
    public void A_class_of_tests_is_there(string name) =>
        Assert.Contains(typeof(NamedFilesTests).Assembly.GetTypes(), type => type.Name.StartsWith(name, StringComparison.Ordinal));

    [Theory]
    [MemberData(nameof(Settings))]
    public void A_setting_is_read(string name) =>
        Assert.Contains(
            Files.Where(file => file == ".ci/run" || file.EndsWith(".cs", StringComparison.Ordinal)),
            file => Repository.Read(file).Contains(name, StringComparison.Ordinal));

    private static string WithoutBlocks() => string.Concat(Guide.Split("```").Where((_, index) => index % 2 == 0));

    [GeneratedRegex("`(?<code>[^`\n]+)`")]
    private static partial Regex Code();

    [GeneratedRegex(@"^[\w.*-]+(/[\w.*-]*)+$|^[\w*]+\.(cs|g4|txt|props|config|md|json)$")]
    private static partial Regex PathLike();

    [GeneratedRegex(@"(?<![\w./])[\w.-]+(/[\w.-]+)*/(?=[\s,;:])")]
    private static partial Regex Folder();

    [GeneratedRegex(@"\bWATERSCRIPT_[A-Z_]+\b")]
    private static partial Regex Setting();

    [GeneratedRegex(@"\b[A-Z]\w+Tests\b|\bRulePages\b|\bReportSchemaPage\b")]
    private static partial Regex TestClass();
}
