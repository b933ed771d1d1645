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

    private int StatusOf(Dictionary<string, object> hook, params string[] changed)
    {
        string[] entry = ((string)hook["entry"]).Split(' ');
        Assert.Equal("waterscript", entry[0]);
        var arguments = hook.TryGetValue("args", out var given) ? ((List<object>)given).Cast<string>() : [];
        var files = hook.TryGetValue("pass_filenames", out var passed) && (string)passed == "false" ? [] : changed;
        return Run([.. entry[1..], .. arguments, .. files]).ExitCode;
    }
}
