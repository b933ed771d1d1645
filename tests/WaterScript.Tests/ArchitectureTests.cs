using System.Text.RegularExpressions;
using WaterScript.Tests.Documentation;
using Xunit;

namespace WaterScript.Tests;

/// <summary>Data goes one way through the compiler: a stage sees only the stages before it.</summary>
public partial class ArchitectureTests
{
    private const string Library = "src/WaterScript";

    /// <summary>The stages, in the order in which data goes through them.</summary>
    private static readonly string[] Stages =
        ["Text", "Diagnostics", "Quantities", "Syntax", "Model", "Agronomy", "Binding", "Calendars", "Timetables", "Checks", "Outputs", "Comparison"];

    public static TheoryData<string> Folders =>
        [.. Directory.EnumerateDirectories(Path.Combine(Repository.Root, Library)).Select(folder => Path.GetFileName(folder)!).Where(folder => folder is not ("bin" or "obj"))];

    [Theory]
    [MemberData(nameof(Folders))]
    public void A_stage_sees_only_the_stages_before_it(string folder)
    {
        var own = Array.IndexOf(Stages, folder);
        Assert.True(own >= 0, $"{folder} has no place in the order of the stages");
        Assert.Empty(Sources(folder).SelectMany(file => StagesSeenBy(file)
            .Where(seen => Array.IndexOf(Stages, seen) > own)
            .Select(seen => $"{Path.GetFileName(file)} sees {seen}")));
    }

    [Theory]
    [MemberData(nameof(Folders))]
    public void A_folder_is_a_namespace(string folder) => Assert.All(Sources(folder), file =>
    {
        var expected = string.Join('.', Path.GetDirectoryName(Path.GetRelativePath(Path.Combine(Repository.Root, "src"), file))!.Split(Path.DirectorySeparatorChar));
        Assert.Contains(Namespace().Match(File.ReadAllText(file)).Groups["name"].Value, new[] { expected, $"WaterScript.{folder}" });
    });

    [Fact]
    public void The_library_does_not_see_the_command_line() =>
        Assert.All(Directory.EnumerateFiles(Path.Combine(Repository.Root, Library), "*.cs", SearchOption.AllDirectories), file => Assert.DoesNotContain("WaterScript.Cli", File.ReadAllText(file), StringComparison.Ordinal));

    /// <summary>
    /// Text for people goes through <c>PlainLines</c> and <c>MarkdownLines</c>, which show what would steer a terminal or begin a command. So nothing else
    /// gets hold of a console, of a writer of text, or of the colours of a terminal.
    /// </summary>
    [Theory]
    [InlineData("src/WaterScript", "Diagnostics/PlainLines.cs", "Diagnostics/MarkdownLines.cs", "Outputs/Reports/GithubReport.cs", "Checks/Baseline.cs", "Syntax/Parser.cs", "Syntax/TokenReader.cs", "Syntax/TreeBuilder.cs")]
    [InlineData("src/WaterScript.Cli", "Terminal.cs", "StandardOutput.cs", "Progress.cs", "CommandLine.cs", "Files/BaselineFile.cs")]
    public void Nothing_but_the_writers_writes_text(string project, params string[] writers)
    {
        var root = Path.Combine(Repository.Root, project);
        var others = Directory.EnumerateFiles(root, "*.cs", SearchOption.AllDirectories)
            .Select(file => (File: file, Name: Path.GetRelativePath(root, file).Replace('\\', '/')))
            .Where(file => !file.Name.StartsWith("obj/", StringComparison.Ordinal) && !file.Name.StartsWith("bin/", StringComparison.Ordinal) && !file.Name.Contains("/Generated/", StringComparison.Ordinal))
            .ToList();
        Assert.All(writers, writer => Assert.Contains(others, file => file.Name == writer));
        Assert.Empty(others.Where(file => !writers.Contains(file.Name) && TextWriting().IsMatch(File.ReadAllText(file.File))).Select(file => file.Name));
    }

    /// <summary>The command line makes bytes of text itself only where it writes a source back, which is the user's own file.</summary>
    [Fact]
    public void Only_sources_are_written_as_they_are() =>
        Assert.Equal(
            ["FixCommand.cs", "FormatCommand.cs"],
            Directory.EnumerateFiles(Path.Combine(Repository.Root, "src/WaterScript.Cli/Commands"), "*.cs").Where(file => File.ReadAllText(file).Contains("GetBytes(", StringComparison.Ordinal)).Select(Path.GetFileName).Order(StringComparer.Ordinal));

    private static IEnumerable<string> Sources(string folder) =>
        Directory.EnumerateFiles(Path.Combine(Repository.Root, Library, folder), "*.cs", SearchOption.AllDirectories);

    /// <summary>The stages that a file names, in a using line or in full.</summary>
    private static IEnumerable<string> StagesSeenBy(string file) =>
        StageName().Matches(File.ReadAllText(file)).Select(match => match.Groups["stage"].Value).Distinct();

    [GeneratedRegex(@"\b(TextWriter|StreamWriter|StringWriter)\b|\bConsole\.|\\e\[|\\u001[bB]|\\x1[bB]")]
    private static partial Regex TextWriting();

    [GeneratedRegex(@"\bWaterScript\.(?<stage>[A-Z][A-Za-z]+)")]
    private static partial Regex StageName();

    [GeneratedRegex(@"^\s*namespace\s+(?<name>[\w.]+)", RegexOptions.Multiline)]
    private static partial Regex Namespace();
}
