using System.Formats.Tar;
using System.IO.Compression;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using WaterScript.Tests.Cli;
using WaterScript.Tests.Documentation;
using Xunit;
using YamlDotNet.Serialization;

namespace WaterScript.Tests.Release;

/// <summary>What is released has all that belongs to it and nothing else, can be installed and removed, and runs.</summary>
public sealed partial class ReleaseTests : Workshop
{
    private static readonly string[] BesideTheProgram =
    [
        "LICENSE", "NOTICES-DOTNET.txt", "README.md", "THIRD-PARTY-NOTICES.txt", "completions/_waterscript", "completions/waterscript.bash",
        "completions/waterscript.fish", "completions/waterscript.ps1", "waterscript.1",
    ];

    private static string Version => VersionOf().Match(Repository.Read("Directory.Build.props")).Groups[1].Value;

    [ReleaseFact]
    public void Each_archive_has_the_program_and_what_belongs_beside_it()
    {
        var archives = Directory.EnumerateFiles(ReleaseFactAttribute.Folder, $"waterscript-{Version}-*");
        Assert.NotEmpty(archives);
        Assert.All(archives, archive =>
        {
            var isZip = archive.EndsWith(".zip", StringComparison.Ordinal);
            var names = (isZip ? NamesInZip(archive) : NamesInTar(archive)).Select(name => name[(name.IndexOf('/', StringComparison.Ordinal) + 1)..]);
            Assert.Equal(BesideTheProgram.Append(isZip ? "waterscript.exe" : "waterscript").Order(StringComparer.Ordinal), names.Order(StringComparer.Ordinal));
        });
    }

    [ReleaseFact]
    public void Packages_have_no_symbols_and_no_comments_of_the_code_of_the_program()
    {
        var tools = Packages("WaterScript.Cli*.nupkg").ToList();
        Assert.Contains(tools, path => path.EndsWith($"WaterScript.Cli.linux-x64.{Version}.nupkg", StringComparison.Ordinal));
        Assert.Contains(tools, path => path.EndsWith($"WaterScript.Cli.any.{Version}.nupkg", StringComparison.Ordinal));
        Assert.All(tools, path => Assert.DoesNotContain(NamesInZip(path), name => Regex.IsMatch(name, @"\.(pdb|dbg)$|(Compiler|waterscript)\.xml$")));
        Assert.All(tools, path => Assert.Contains("LICENSE", NamesInZip(path)));
    }

    [ReleaseFact]
    public void The_package_that_names_the_others_names_those_that_are_there()
    {
        using var pointer = ZipFile.OpenRead(InRelease($"packages/WaterScript.Cli.{Version}.nupkg"));
        using var settings = new StreamReader(pointer.Entries.Single(entry => entry.Name == "DotnetToolSettings.xml").Open());
        var named = PackageOfSystem().Matches(settings.ReadToEnd()).Select(match => $"{match.Groups[1].Value}.{Version}.nupkg");
        var there = Packages("WaterScript.Cli.*-*.nupkg").Concat(Packages("WaterScript.Cli.any.*")).Select(path => Path.GetFileName(path));
        Assert.Equal(there.Order(StringComparer.Ordinal), named.Order(StringComparer.Ordinal));
    }

    /// <summary>In a home of its own, whose cache of packages is empty.</summary>
    [ReleaseFact]
    public void The_tool_is_installed_runs_and_leaves_nothing()
    {
        Write("front.water", FrontOfReadme());
        var install = Dotnet("tool", "install", "WaterScript.Cli", "--tool-path", PathOf("tools"), "--source", Feed, "--no-http-cache");
        Assert.True(install.ExitCode == 0, install.Output + install.Error);
        var check = WaterscriptProcess.Start(PathOf("tools/waterscript"), Folder, [], Home, ["check", "front.water"]);
        Assert.Equal(1, check.ExitCode);
        Assert.StartsWith("error: zones need 19.0 L/min at once, supply tap gives 15.0 [flow-over-supply]\n", check.Output, StringComparison.Ordinal);
        var uninstall = Dotnet("tool", "uninstall", "WaterScript.Cli", "--tool-path", PathOf("tools"));
        Assert.True(uninstall.ExitCode == 0, uninstall.Output + uninstall.Error);
        Assert.Empty(Directory.EnumerateFiles(PathOf("tools"), "*", SearchOption.AllDirectories));
    }

    [ReleaseFact]
    public void The_tool_runs_once_without_being_installed()
    {
        Write("front.water", FrontOfReadme());
        var run = Dotnet("tool", "exec", "WaterScript.Cli", "--source", Feed, "--yes", "--", "check", "front.water");
        Assert.Contains("[flow-over-supply]", run.Output, StringComparison.Ordinal);
        Assert.Equal(1, run.ExitCode);
    }

    [ReleaseFact]
    public void What_each_consists_of_is_what_the_notices_and_the_lock_files_name()
    {
        var program = Components($"waterscript-{Version}.cdx.json");
        var notices = HeadingOfNotice().Matches(Repository.Read("src/WaterScript.Cli/THIRD-PARTY-NOTICES.txt"))
            .Select(match => $"{match.Groups[1].Value} {match.Groups[2].Value} {match.Groups[3].Value}");
        Assert.Equal(notices.Order(StringComparer.Ordinal), program.Order(StringComparer.Ordinal));
        var page = Components($"waterscript-playground-{Version}.cdx.json");
        Assert.Contains(page, component => component.StartsWith("view ", StringComparison.Ordinal));
        var library = Components($"WaterScript.{Version}.cdx.json");
        Assert.Contains(library, component => component.StartsWith("NodaTime ", StringComparison.Ordinal));
        Assert.DoesNotContain(page.Concat(library), component => Regex.IsMatch(component, "esbuild|typescript|ILCompiler|Analyzers"));
    }

    [ReleaseFact]
    public void The_sums_are_those_of_all_files()
    {
        var sums = File.ReadAllLines(InRelease("SHA256SUMS")).Select(line => line.Split("  ")).ToDictionary(parts => parts[1], parts => parts[0]);
        var files = Directory.EnumerateFiles(ReleaseFactAttribute.Folder, "*", SearchOption.AllDirectories)
            .Select(path => Path.GetRelativePath(ReleaseFactAttribute.Folder, path))
            .Where(path => !path.StartsWith("work/", StringComparison.Ordinal) && path != "SHA256SUMS");
        Assert.Equal(files.Order(StringComparer.Ordinal), sums.Keys.Order(StringComparer.Ordinal));
        Assert.All(sums, sum => Assert.Equal(sum.Value, Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(InRelease(sum.Key))))));
    }

    /// <summary>The job that runs a release on other systems, on this one.</summary>
    [ReleaseFact]
    public void The_recipe_for_other_systems_runs_the_archive_of_this_one()
    {
        var recipe = new DeserializerBuilder().Build().Deserialize<Dictionary<string, object>>(Repository.Read("docs/ci/other-systems.yml"));
        var job = (Dictionary<object, object>)((Dictionary<object, object>)recipe["jobs"])["run"];
        var step = ((List<object>)job["steps"]).Cast<Dictionary<object, object>>().Single(step => step.ContainsKey("run"));
        Write("step.sh", (string)step["run"]);
        var result = WaterscriptProcess.Shell(Folder,
            $"ln -s {ReleaseFactAttribute.Folder} release && ARCHIVE=linux-x64.tar.gz PROGRAM=waterscript bash step.sh");
        Assert.True(result.ExitCode == 0, result.Output + result.Error);
    }

    private static string Feed => InRelease("packages");

    private (string Name, string Value)[] Home =>
    [
        ("HOME", PathOf("home")), ("DOTNET_CLI_HOME", PathOf("home")), ("NUGET_PACKAGES", PathOf("home/packages")), ("DOTNET_NOLOGO", "1"),
        ("DOTNET_CLI_TELEMETRY_OPTOUT", "1"), ("DOTNET_GENERATE_ASPNET_CERTIFICATE", "false"),
    ];

    private WaterscriptProcess.Result Dotnet(params string[] arguments)
    {
        Directory.CreateDirectory(PathOf("home"));
        return WaterscriptProcess.Start(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", "..", "dotnet"), Folder, [], Home, arguments);
    }

    private static string FrontOfReadme() =>
        FencedBlock.Of("README.md", Repository.Read("README.md").ReplaceLineEndings("\n")).First(block => block.Language == "water").Text;

    private static string InRelease(string path) => Path.Combine(ReleaseFactAttribute.Folder, path);

    private static IEnumerable<string> Packages(string pattern) => Directory.EnumerateFiles(Feed, pattern);

    private static List<string> Components(string file) =>
        [.. JsonNode.Parse(File.ReadAllText(InRelease(file)))!["components"]!.AsArray()
            .Select(component => $"{component!["name"]} {component["version"]} {component["licenses"]![0]!["license"]!["id"]}")];

    private static List<string> NamesInZip(string path)
    {
        using var zip = ZipFile.OpenRead(path);
        return [.. zip.Entries.Select(entry => entry.FullName)];
    }

    private static List<string> NamesInTar(string path)
    {
        using var packed = new GZipStream(File.OpenRead(path), CompressionMode.Decompress);
        using var tar = new TarReader(packed);
        var names = new List<string>();
        while (tar.GetNextEntry() is { } entry)
        {
            if (entry.EntryType != TarEntryType.Directory) names.Add(entry.Name);
        }

        return names;
    }

    [GeneratedRegex("<Version>(.+)</Version>")]
    private static partial Regex VersionOf();

    [GeneratedRegex("Id=\"([^\"]+)\"")]
    private static partial Regex PackageOfSystem();

    [GeneratedRegex(@"^(\S+) (\d\S*) - (\S+)$", RegexOptions.Multiline)]
    private static partial Regex HeadingOfNotice();
}
