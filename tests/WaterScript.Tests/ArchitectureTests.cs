using System.Text.RegularExpressions;
using WaterScript.Tests.Documentation;
using Xunit;

namespace WaterScript.Tests;

/// <summary>Data goes one way through the compiler: a file sees only what stands before its folder, and few files need one another.</summary>
public partial class ArchitectureTests
{
    private const string Library = "src/WaterScript";

    /// <summary>What stands in no folder: the entry point, and what it gives.</summary>
    private const string Entry = "";

    /// <summary>The stages, in the order in which data goes through them.</summary>
    private static readonly string[] Stages =
    [
        "Text", "Diagnostics", "Quantities", "Language", "Syntax", "Model", "Agronomy", "Binding", "Calendars", "Timetables", "Simulation", "Wording",
        "Linting", "Documents", "Answers", "Editing", Entry,
    ];

    /// <summary>All of it is compiled for them: when the first test asks, not when the tests are counted, which holds up all others.</summary>
    private static readonly Lazy<FileDependencies> Known = new(() => FileDependencies.Of(Library));

    private static readonly string[] Files = [.. FileDependencies.FilesOf(Library)];

    public static TheoryData<string> Folders => [.. Files.Select(FolderOf).Distinct()];

    private static FileDependencies Dependencies => Known.Value;

    [Theory]
    [MemberData(nameof(Folders))]
    public void A_folder_sees_only_those_before_it(string folder)
    {
        var own = Array.IndexOf(Stages, folder.Split('/')[0]);
        Assert.True(own >= 0, $"{folder} has no place in the order of the stages");
        Assert.Empty(Dependencies.Files.Where(file => FolderOf(file) == folder)
            .SelectMany(file => Dependencies.UsedBy(file)
                .Where(used => Array.IndexOf(Stages, FileDependencies.StageOf(used)) > own)
                .Select(used => $"{file} sees {used}"))
            .Except(KnownDependencies.Upward));
    }

    [Fact]
    public void No_more_than_three_files_need_one_another() =>
        Assert.Empty(Dependencies.Circles().Where(circle => circle.Length > 3).Select(circle => string.Join(" ", circle)).Except(KnownDependencies.Circles));

    [Fact]
    public void What_is_known_to_be_wrong_still_is() =>
        Assert.All(KnownDependencies.Upward.Concat(KnownDependencies.Circles), known => Assert.Contains(known, Dependencies.Found(Stages)));

    [Theory]
    [MemberData(nameof(Folders))]
    public void A_folder_is_a_namespace(string folder) => Assert.All(Files.Where(file => FolderOf(file) == folder), file =>
        Assert.Equal($"WaterScript.{folder.Replace('/', '.')}".TrimEnd('.'), Namespace().Match(Repository.Read($"{Library}/{file}")).Groups["name"].Value));

    [Theory]
    [MemberData(nameof(Folders))]
    public void A_folder_has_no_more_than_25_files(string folder) => Assert.InRange(Files.Count(file => FolderOf(file) == folder), 1, 25);

    [Fact]
    public void A_file_has_no_more_than_400_lines_of_160_columns()
    {
        var sources = Sources().Select(file => (Name: file, Lines: Repository.Read(file).Split('\n'))).ToList();
        Assert.Empty(sources.Where(file => file.Lines.Length > 401).Select(file => file.Name));
        var found = sources
            .SelectMany(file => file.Lines.Index().Where(line => line.Item.Length > 160).Select(line => $"{file.Name}:{line.Index + 1}")).ToList();
        Assert.True(found.Count == 0, $"{found.Count} lines of more than 160 columns:\n{string.Join('\n', found)}");
    }

    [Fact]
    public void A_file_of_the_library_does_not_see_the_command_line() =>
        Assert.All(Files, file => Assert.DoesNotContain("WaterScript.Cli", Repository.Read($"{Library}/{file}"), StringComparison.Ordinal));

    private static IEnumerable<string> Sources() => new[] { "src", "tests" }
        .SelectMany(root => Directory.EnumerateFiles(Path.Combine(Repository.Root, root), "*.cs", SearchOption.AllDirectories))
        .Select(path => Path.GetRelativePath(Repository.Root, path).Replace('\\', '/'))
        .Where(path => !path.Contains("/bin/", StringComparison.Ordinal) && !path.Contains("/obj/", StringComparison.Ordinal)
            && !path.Contains("/Generated/", StringComparison.Ordinal));

    private static string FolderOf(string file) => file[..Math.Max(0, file.LastIndexOf('/'))];

    [GeneratedRegex(@"^\s*namespace\s+(?<name>[\w.]+)", RegexOptions.Multiline)]
    private static partial Regex Namespace();
}
