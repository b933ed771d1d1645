using System.Text.Json.Nodes;
using WaterScript.Tests.Cli;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>What the commands answer about the examples is as the schema says. Workshops hold all other answers against it too.</summary>
public sealed class ReportSchemaTests : Workshop
{
    [Theory]
    [MemberData(nameof(ExampleTests.Roots), MemberType = typeof(ExampleTests))]
    public void Answers_about_an_example_are_as_the_schema_says(string path)
    {
        var site = Example.Read(path).Site!;
        var root = Path.Combine(Repository.Root, path);
        var from = site.Effective.PlusDays(100);
        string[] commands =
        [
            "check FILE --report json --show-accepted",
            "advise FILE --report json",
            .. new[] { "05:10", "08:03", "21:40" }.Select(time => $"next FILE --at {from:yyyy-MM-dd}T{time} --report json --count 3"),
            .. site.Zones.Take(3).Select(zone => $"why FILE {zone.Name} {from:yyyy-MM-dd} --report json"),
            "diff FILE FILE --report json",
            "usage FILE --report json",
            "usage FILE --report json --by schedule,week",
        ];
        Assert.All(commands, command => ReportSchema.Hold(Run([.. command.Split(' ').Select(word => word == "FILE" ? root : word)]).Output));
    }

    [Theory]
    [InlineData("check site.water --report json", "sites/0/tally/more")]
    [InlineData("check site.water --report json", "sites/0/file", "missing")]
    [InlineData("next site.water --report json", "at", "noon")]
    [InlineData("advise site.water --report json", "zones/0/flow")]
    [InlineData("why site.water lawn 2026-04-01 --report json", "schedules/0/due", "maybe")]
    [InlineData("diff site.water site.water --report json", "waterscript_diff", "2")]
    [InlineData("diff site.water site.water --report json", "timezone_data", "missing")]
    [InlineData("deployed list.csv site.water --report json", "lists/0/rows", "many")]
    [InlineData("usage site.water --report json", "rows/0/litres")]
    [InlineData("usage site.water --report json", "missing/0/what", "hour")]
    [InlineData("deployed list.csv site.water --report json", "lists/0/revision_from", "memory")]
    public void The_schema_refuses_what_it_does_not_know(string command, string path, string? value = "3")
    {
        Write("site.water", Good);
        RunLine("compile site.water --to csv --only switchings --days 2 -o list.csv");
        var tree = JsonNode.Parse(RunLine(command).Output)!;
        var keys = path.Split('/');
        var parent = keys[..^1].Aggregate(tree, (node, key) =>
            node is JsonArray list ? list[int.Parse(key, System.Globalization.CultureInfo.InvariantCulture)]! : node[key]!);
        if (value == "missing") parent.AsObject().Remove(keys[^1]);
        else parent[keys[^1]] = value;
        Assert.False(ReportSchema.Allows(tree.ToJsonString()));
    }
}
