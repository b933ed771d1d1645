using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>The notices that go with the program name what it ships with: judged by the lock file, and by what the packages say of themselves.</summary>
public sealed partial class NoticesTests
{
    private const string Runtime = "Microsoft.NETCore.App.Runtime.NativeAOT";
    private const string NativeCompiler = "Microsoft.DotNet.ILCompiler";

    // What builds the program and is not in it. The native compiler links the runtime of its own version, which is named in its place.
    private static readonly string[] Tools = [NativeCompiler, "Microsoft.NET.ILLink.Tasks", "runtime.linux-x64." + NativeCompiler];

    private static readonly string Notices = Repository.Read("src/WaterScript.Cli/THIRD-PARTY-NOTICES.txt");

    [Fact]
    public void What_the_program_ships_with_is_named_with_its_version_and_nothing_else_is()
    {
        var locked = Locked("src/WaterScript.Cli/packages.lock.json");

        var runtime = (Runtime, locked.Single(package => package.Name == NativeCompiler).Version);
        var shipped = locked.Where(package => !Tools.Contains(package.Name)).Append(runtime);

        Assert.Equal(shipped.Order(), Named().Select(named => (named.Name, named.Version)).Order());
    }

    [Fact]
    public void The_published_program_is_made_of_the_same_packages_as_the_tested_one() =>
        Assert.Equal(Locked("src/WaterScript.Cli/packages.lock.json"), Locked("src/WaterScript.Cli/packages.linux-x64.lock.json"));

    [Fact]
    public void A_licence_is_the_one_that_the_package_states()
    {
        foreach (var (name, version, licence) in Named().Where(named => named.Name != Runtime))
        {
            Assert.Equal((name, StatedLicence(name, version)), (name, licence));
        }
    }

    [Fact]
    public void Every_named_package_has_a_line_of_copyright_and_the_text_of_its_licence()
    {
        foreach (var (name, version, licence) in Named())
        {
            Assert.Matches($@"(?m)^{Regex.Escape($"{name} {version} - {licence}")}\n  Copyright ", Notices);
            Assert.Matches($@"(?m)^={{70,}}\n{Regex.Escape(licence)}\n\n[^=]{{500,}}", Notices);
        }
    }

    private static (string Name, string Version, string Licence)[] Named() =>
        [.. Heading().Matches(Notices).Select(match => (match.Groups[1].Value, match.Groups[2].Value, match.Groups[3].Value))];

    private static (string Name, string Version)[] Locked(string path)
    {
        using var file = JsonDocument.Parse(Repository.Read(path));
        return
        [
            .. file.RootElement.GetProperty("dependencies").EnumerateObject()
                .SelectMany(framework => framework.Value.EnumerateObject())
                .Where(package => package.Value.GetProperty("type").GetString() != "Project")
                .Select(package => (package.Name, package.Value.GetProperty("resolved").GetString()!))
                .Distinct()
                .Order(),
        ];
    }

    private static string? StatedLicence(string name, string version)
    {
        var id = name.ToLowerInvariant();
        var description = XDocument.Load(Path.Combine(PackageFolder(), id, version, id + ".nuspec"));
        return description.Descendants().Single(element => element.Name.LocalName == "license" && element.Attribute("type")?.Value == "expression").Value;
    }

    private static string PackageFolder() =>
        Environment.GetEnvironmentVariable("NUGET_PACKAGES") is { Length: > 0 } folder
            ? folder
            : Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".nuget", "packages");

    [GeneratedRegex(@"^(\S+) (\d\S*) - (\S+)$", RegexOptions.Multiline)]
    private static partial Regex Heading();
}
