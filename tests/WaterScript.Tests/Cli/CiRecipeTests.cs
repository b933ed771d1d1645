using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Player;
using Xunit;
using YamlDotNet.Serialization;

namespace WaterScript.Tests.Cli;

/// <summary>
/// The recipes of <c>docs/ci</c> as a runner of jobs carries them out, in a repository with a change. Services are not here: what is between a step and its
/// service is not run.
/// </summary>
public sealed partial class CiRecipeTests : Workshop
{
    private const string Wrong = "zone beds { output 2; flow 5 ";

    private static readonly string Recipes = Path.Combine(Repository.Root, "docs", "ci");

    [ShellFact]
    public void A_check_of_a_good_folder_goes_on_and_leaves_a_report()
    {
        Write("garden.water", Good);
        var result = Shell($"sh {Recipes}/check.sh .");
        Assert.Equal(0, result.ExitCode);
        Assert.Contains("Garden: ", result.Output, StringComparison.Ordinal);
        Assert.Equal("2.1.0", (string?)JsonNode.Parse(Read("findings.sarif"))!["version"]);
    }

    [ShellFact]
    public void A_check_of_a_wrong_folder_stops_the_job_and_marks_the_line()
    {
        Write("garden.water", Good + Wrong);
        var result = Shell($"GITHUB_ACTIONS=true sh {Recipes}/check.sh .");
        Assert.Equal(1, result.ExitCode);
        Assert.Contains("\n::error file=garden.water", "\n" + result.Output, StringComparison.Ordinal);
        Assert.NotEmpty(JsonNode.Parse(Read("findings.sarif"))!["runs"]![0]!["results"]!.AsArray());
        Assert.Equal(2, Shell($"sh {Recipes}/check.sh nowhere").ExitCode);
    }

    [ShellFact]
    public void A_review_has_the_change_in_words_and_in_two_pictures()
    {
        var from = CommitTwice();
        var result = Shell($"BASE={from} sh {Recipes}/review.sh .");
        Assert.Equal(("", 0), (result.Error, result.ExitCode));
        var comment = Read("comment.md");
        Assert.Contains("**Garden: the watering changes.**", comment, StringComparison.Ordinal);
        Assert.EndsWith("noon of 2026-02-28: `sites-garden.before.svg` and `sites-garden.after.svg` among the files of this job.\n", comment,
            StringComparison.Ordinal);
        Assert.Equal(["sites-garden.after.svg", "sites-garden.before.svg"],
            Directory.EnumerateFiles(PathOf("review")).Select(path => Path.GetFileName(path)).Order(StringComparer.Ordinal));
        Assert.Contains("06:00 to 06:10", Read("review/sites-garden.before.svg"), StringComparison.Ordinal);
        Assert.Contains("06:00 to 06:15", Read("review/sites-garden.after.svg"), StringComparison.Ordinal);
        Assert.Single(Shell("git worktree list").Output.Split('\n', StringSplitOptions.RemoveEmptyEntries));
    }

    [ShellFact]
    public void A_review_without_a_base_stops()
    {
        CommitTwice();
        Assert.NotEqual(0, Shell($"sh {Recipes}/review.sh .").ExitCode);
    }

    /// <summary>All of its steps, one after the other, with what a service puts in place of its expressions.</summary>
    [ShellFact]
    public void The_steps_of_the_action_run_with_the_program_that_a_job_has()
    {
        var from = CommitTwice();
        var action = new DeserializerBuilder().Build().Deserialize<Dictionary<string, object>>(File.ReadAllText(Path.Combine(Recipes, "action.yml")));
        var inputs = Map(action["inputs"]).ToDictionary(input => input.Key, input => (string)Map(input.Value)["default"]);
        (inputs["program"], inputs["review"], inputs["folder"]) = (WaterscriptProcess.Path, "true", "sites");
        var steps = ((List<object>)Map(action["runs"])["steps"]).Select(Map).ToList();
        Assert.Equal(3, steps.Count);
        foreach (var step in steps)
        {
            var settings = Map(step["env"]).Select(variable => $"{variable.Key}='{Replaced((string)variable.Value, inputs, from)}'")
                .Append($"GITHUB_ACTION_PATH='{Recipes}'").Append($"GITHUB_OUTPUT='{PathOf("output")}'");
            var script = Write("step.sh", (string)step["run"]);
            var result = Shell($"export {string.Join(' ', settings)}; sh -e {script}");
            Assert.True(result.ExitCode == 0, result.Output + result.Error);
        }

        Assert.Equal($"program={WaterscriptProcess.Path}\n", Read("output"));
        Assert.True(File.Exists(PathOf("findings.sarif")));
        Assert.Contains("the watering changes", Read("comment.md"), StringComparison.Ordinal);
    }

    private static string Replaced(string value, Dictionary<string, string> inputs, string from) => Expression().Replace(value, expression =>
        expression.Groups["words"].Value switch
        {
            "steps.install.outputs.program" => WaterscriptProcess.Path,
            "inputs.strict == 'true' && '1' || ''" => inputs["strict"] == "true" ? "1" : "",
            "github.base_ref" => from,
            var input when input.StartsWith("inputs.", StringComparison.Ordinal) => inputs[input["inputs.".Length..]],
            var other => throw new InvalidOperationException(other),
        });

    private static Dictionary<string, object> Map(object value) =>
        ((Dictionary<object, object>)value).ToDictionary(entry => (string)entry.Key, entry => entry.Value);

    /// <summary>A branch that a change is made to, and one with a change.</summary>
    private string CommitTwice()
    {
        Shell("git init -q . && git config user.name tester && git config user.email tester@localhost && git config commit.gpgsign false");
        Write("sites/garden.water", Good);
        Shell("git add sites && git commit -qm one && git update-ref refs/remotes/origin/base HEAD && git branch base");
        Write("sites/garden.water", Good.Replace("10 min", "15 min", StringComparison.Ordinal));
        Shell("git commit -qam two");
        return "base";
    }

    private WaterscriptProcess.Result Shell(string line) => WaterscriptProcess.Shell(Folder, line);

    [GeneratedRegex(@"\$\{\{ (?<words>.+?) \}\}")]
    private static partial Regex Expression();
}
