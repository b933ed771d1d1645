using System.Collections;
using System.Text.Json;
using Json.Schema;
using NodaTime;
using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Documents.Timetables;
using WaterScript.Syntax;
using WaterScript.Text;
using WaterScript.Timetables;
using Xunit;
using OutputFormat = WaterScript.Documents.Timetables.OutputFormat;

namespace WaterScript.Tests.Documentation;

/// <summary>The reference shows every statement, step and day of the language, and what it shows comes out in a timetable as its JSON Schema says.</summary>
public class ReferenceExamplesTests
{
    private static readonly List<FencedBlock> Blocks = [.. FencedBlock.InPages("water").Where(block => block.Page == "docs/language.md")];

    [Fact]
    public void Every_kind_of_node_is_in_an_example()
    {
        var seen = new HashSet<Type>();
        foreach (var snippet in Snippet.Of(Blocks)) Take(Parser.Parse(SourceText.From("page.water", snippet.Text), new FindingList()), seen);
        var kinds = typeof(Node).Assembly.GetTypes().Where(type => type.IsSubclassOf(typeof(Node)) && !type.IsAbstract);
        Assert.Empty(kinds.Where(type => !seen.Contains(type)).Select(type => type.Name));
    }

    [Fact]
    public void Every_example_without_an_error_comes_out_as_the_json_schema_says()
    {
        var schema = JsonSchema.FromText(Repository.Read(TimetableSchema.Path));
        var files = new MemoryFiles(Snippet.Included(Blocks));
        foreach (var snippet in Snippet.Of(Blocks).Where(snippet => snippet.Verdict == Verdict.Compiles))
        {
            var reading = SiteReader.Read(SourceText.From("page.water", snippet.Text), "page.water", files, DateTimeZoneProviders.Tzdb);
            var timetable = Timetable.Of(reading.Site!, Horizon.DaysFrom(reading.Site!.Effective, 1));
            var output = new MemoryStream();
            TimetableOutput.Write(timetable, OutputFormat.Json, new OutputOptions(), output);
            Assert.True(schema.Evaluate(JsonDocument.Parse(output.ToArray()).RootElement).IsValid, snippet.ToString());
        }
    }

    /// <summary>Takes the kinds of all nodes of a tree.</summary>
    private static void Take(object item, HashSet<Type> seen)
    {
        if (item is Node node)
        {
            seen.Add(node.GetType());
            foreach (var property in node.GetType().GetProperties())
            {
                if (property.GetValue(node) is Node or IEnumerable and not string) Take(property.GetValue(node)!, seen);
            }
        }
        else if (item is IEnumerable items)
        {
            foreach (var one in items.OfType<Node>()) Take(one, seen);
        }
    }
}
