using System.Text;
using System.Text.Json.Nodes;
using WaterScript.Tests.Documentation;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>Many sites at once: by a list of paths, in parts, and on several machines; what comes of it is what one check of all gives.</summary>
public sealed class FleetTests : Workshop
{
    private const int Sites = 70;

    private static readonly string Recipes = Path.Combine(Repository.Root, "docs", "ci");

    [Fact]
    public void A_list_is_checked_like_its_paths()
    {
        WriteFleet();
        var paths = Directory.EnumerateFiles(Folder, "*.water").Select(path => Path.GetFileName(path)!).Order(StringComparer.Ordinal).ToArray();
        var expected = Run(["check", .. paths]);
        Assert.Equal(1, expected.ExitCode);
        Write("sites.txt", string.Join('\n', paths) + "\n");
        Assert.Equal(expected, Run("check", "--files-from", "sites.txt"));
        Write("sites.txt", string.Join("\r\n", paths.Concat(paths)) + "\r\n\r\n");
        Assert.Equal(expected, Run("check", "--files-from", "sites.txt"));
        Write("sites.txt", string.Join('\0', paths) + "\0");
        Assert.Equal(expected, Run("check", "--files-from", "sites.txt"));
        Assert.Equal(expected, Run("check", paths[0], "--files-from", "sites.txt"));
    }

    [Fact]
    public void Reports_come_in_the_order_of_the_list_however_long_each_takes()
    {
        WriteFleet();
        var paths = Directory.EnumerateFiles(Folder, "*.water").Select(path => Path.GetFileName(path)!).OrderDescending(StringComparer.Ordinal).ToArray();
        Write("sites.txt", string.Join('\n', paths));
        var report = JsonNode.Parse(Run("check", "--files-from", "sites.txt", "--report", "json").Output)!;
        Assert.Equal(paths, report["sites"]!.AsArray().Select(site => (string)site!["file"]!));
    }

    [Fact]
    public void What_is_wrong_with_a_list_is_said()
    {
        Write("garden.water", Good);
        Write("sites.txt", "garden.water\nnowhere.water\n");
        var missing = Run("check", "--files-from", "sites.txt");
        Assert.Equal(2, missing.ExitCode);
        Assert.Contains("nowhere.water", missing.Error, StringComparison.Ordinal);
        Assert.Contains("Garden: ", missing.Output, StringComparison.Ordinal);
        Write("sites.txt", "\n\r\n");
        Assert.Contains("sites.txt lists no path", Run("check", "--files-from", "sites.txt").Error, StringComparison.Ordinal);
        Write("sites.txt", "garden.water\n-\n");
        Assert.Contains("lists -, which is standard input", Run("check", "--files-from", "sites.txt").Error, StringComparison.Ordinal);
        Assert.Contains("give it once", Run("check", "-", "--files-from", "-").Error, StringComparison.Ordinal);
        Assert.Contains("no such file: none.txt", Run("check", "--files-from", "none.txt").Error, StringComparison.Ordinal);
        Assert.Contains("--files-from", Run("check").Error, StringComparison.Ordinal);
        Assert.Equal((2, 2), (Run("check").ExitCode, Run("check", "--files-from", "none.txt").ExitCode));
    }

    [Fact]
    public void Whatever_stands_in_a_list_it_ends_with_words()
    {
        Write("garden.water", Good);
        var random = new Random(24);
        for (var each = 0; each < 60; each++)
        {
            var bytes = new byte[random.Next(1, 60)];
            random.NextBytes(bytes);
            if (each % 3 == 0) bytes = [.. bytes, (byte)'\n', .. "garden.water\n"u8];
            File.WriteAllBytes(PathOf("sites.txt"), bytes);
            var result = Run("check", "--files-from", "sites.txt");
            Assert.True(result.ExitCode is 0 or 1 or 2, $"{each}: {result.ExitCode}");
            Assert.DoesNotContain("internal error", result.Error, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain(result.Error, letter => char.IsControl(letter) && letter != '\n');
        }
    }

    /// <summary>The recipe for indexed jobs, with two of them, and the one of all reports to one; jq 1.6 or later merges.</summary>
    [FleetFact("jq --version")]
    public void Parts_on_several_machines_give_one_report()
    {
        WriteFleet();
        Shell("ls *.water > sites.txt");
        foreach (var part in new[] { 0, 1 }) Assert.Equal(1, Shell($"sh {Recipes}/fleet-part.sh sites.txt {part} 2 parts").ExitCode);
        AssertMerged();
    }

    [FleetFact("jq --version && parallel --version | grep -q GNU")]
    public void GNU_parallel_gives_one_report()
    {
        WriteFleet();
        Shell("ls *.water > sites.txt; mkdir parts");
        var recipe = CommandOf("parallel ").Replace("waterscript", "\"$WATERSCRIPT\"", StringComparison.Ordinal)
            .Replace("-N 500", "-N 20", StringComparison.Ordinal);
        Assert.NotEqual(0, Shell(recipe).ExitCode);
        Assert.Equal(4, Directory.EnumerateFiles(PathOf("parts")).Count());
        AssertMerged();
    }

    private void AssertMerged()
    {
        var merged = Shell(CommandOf("jq ").Replace("docs/ci", Recipes, StringComparison.Ordinal) + " && cat fleet.sarif");
        Assert.Equal("", merged.Error);
        var whole = Run(["check", .. Directory.EnumerateFiles(Folder, "*.water").Select(path => Path.GetFileName(path)!), "--report", "sarif"]);
        var (one, all) = (JsonNode.Parse(merged.Output)!["runs"]!.AsArray().Single()!, JsonNode.Parse(whole.Output)!["runs"]![0]!);
        Assert.Equal(Sorted(all["results"]), Sorted(one["results"]));
        Assert.Equal(Sorted(all["artifacts"]), Sorted(one["artifacts"]));
        Assert.Equal(Sorted(all["properties"]!["sites"]), Sorted(one["properties"]!["sites"]));
        Assert.Equal(all["tool"]!.ToJsonString(), one["tool"]!.ToJsonString());
    }

    /// <summary>As text, in one order, without the places in a list of files, which a merged report does not have.</summary>
    private static List<string> Sorted(JsonNode? list)
    {
        foreach (var place in Places(list!).ToList()) place.Remove("index");
        return [.. list!.AsArray().Select(each => each!.ToJsonString()).Order(StringComparer.Ordinal)];
    }

    private static IEnumerable<JsonObject> Places(JsonNode node) => node switch
    {
        JsonObject map => map.Select(entry => entry.Value).OfType<JsonNode>().SelectMany(Places).Concat(map.ContainsKey("uriBaseId") ? [map] : []),
        JsonArray list => list.OfType<JsonNode>().SelectMany(Places),
        _ => [],
    };

    private WaterscriptProcess.Result Shell(string command) => WaterscriptProcess.Shell(Folder, command);

    /// <summary>What a reader of the page about fleets is given to run.</summary>
    private static string CommandOf(string beginning) =>
        Repository.Read("docs/fleets.md").Split('\n').Single(line => line.StartsWith(beginning, StringComparison.Ordinal));

    /// <summary>Good ones, one with a warning now and then, and one with an error.</summary>
    private void WriteFleet()
    {
        for (var each = 0; each < Sites; each++)
        {
            var text = new StringBuilder(Good.Replace("Garden", $"Garden {each}", StringComparison.Ordinal));
            if (each % 9 == 4) text.Append("zone spare-bed { output 3 }\n");
            if (each % 31 == 12) text.Append("zone wrong { outputs 3 }\n");
            Write($"site-{each:00}.water", text.ToString());
        }
    }
}
