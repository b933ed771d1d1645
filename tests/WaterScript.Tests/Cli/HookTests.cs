using System.Text.RegularExpressions;
using WaterScript.Tests.Documentation;
using Xunit;
using YamlDotNet.Serialization;

namespace WaterScript.Tests.Cli;

/// <summary>The hooks for pre-commit do what their names say: they pass a good site and stop a bad one.</summary>
public sealed class HookTests : Workshop
{
    private static readonly List<Dictionary<string, object>> Hooks =
        new DeserializerBuilder().Build().Deserialize<List<Dictionary<string, object>>>(Repository.Read(".pre-commit-hooks.yaml"));

    public static TheoryData<string> Ids => [.. Hooks.Select(hook => (string)hook["id"])];

    [Theory]
    [MemberData(nameof(Ids))]
    public void A_hook_passes_what_is_right_and_stops_what_is_not(string id)
    {
        var hook = Hooks.Single(hook => (string)hook["id"] == id);
        Write("site.water", Good);
        Run("format", "site.water");
        Write("parts/zones.water", "zone more { output 3 }\n");
        Write("with-part.water", Read("site.water") + "\ninclude \"parts/zones.water\"\n");
        Run("format", "with-part.water", "parts/zones.water");
        Assert.Equal(0, StatusOf(hook, "site.water", "parts/zones.water", "with-part.water"));
        Write("site.water", "  zone   lawn { output 1 }\n" + Good);
        Assert.Equal(1, StatusOf(hook, "site.water"));
    }

    /// <summary>What the program for hooks does: a hook runs with the files that are there and match, or always where it says so.</summary>
    [Fact]
    public void The_deletion_of_a_part_that_is_included_runs_the_check()
    {
        Write("parts/zones.water", "zone more { output 3 }\n");
        Write("with-part.water", Good + "\ninclude \"parts/zones.water\"\n");
        Run("format", "with-part.water", "parts/zones.water");
        string[] changed = ["parts/zones.water"];
        Assert.Equal(0, Commit(changed));
        File.Delete(PathOf("parts/zones.water"));
        Assert.Equal(1, Commit(changed));
    }

    [Fact]
    public void The_hook_for_the_layout_says_how_to_repair()
    {
        Write("site.water", "  " + Good);
        Write("other one.water", "  " + Good);
        var result = Run("format", "--check", "site.water", "other one.water");
        Assert.Equal(1, result.ExitCode);
        Assert.Equal("2 files would change.\nTo lay them out: waterscript format site.water 'other one.water'\n", result.Error);
        Assert.Equal("To lay it out: waterscript format site.water\n", Run("format", "--check", "site.water").Error);
        Assert.Equal("", Run("format", "--check", "--quiet", "site.water").Error);
        Assert.Equal(0, Run("format", "site.water", "other one.water").ExitCode);
        Assert.Equal(("", 0), (Run("format", "--check", "site.water").Error, Run("format", "--check", "site.water").ExitCode));
    }

    /// <summary>The gravest status of the hooks that run for files that were changed or deleted.</summary>
    private int Commit(string[] changed) => Hooks.Select(hook =>
    {
        var there = changed.Where(file => File.Exists(PathOf(file)) && Regex.IsMatch(file, (string)hook["files"])).ToArray();
        var isRun = there.Length > 0 || (hook.TryGetValue("always_run", out var always) && (string)always == "true");
        return isRun ? StatusOf(hook, there) : 0;
    }).Max();

    private int StatusOf(Dictionary<string, object> hook, params string[] changed)
    {
        string[] entry = ((string)hook["entry"]).Split(' ');
        Assert.Equal("waterscript", entry[0]);
        var arguments = hook.TryGetValue("args", out var given) ? ((List<object>)given).Cast<string>() : [];
        var files = hook.TryGetValue("pass_filenames", out var passed) && (string)passed == "false" ? [] : changed;
        return Run([.. entry[1..], .. arguments, .. files]).ExitCode;
    }
}
