using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using NodaTime;
using WaterScript.Binding;
using WaterScript.Documents.Timetables;
using WaterScript.Tests.Documentation;
using WaterScript.Text;
using WaterScript.Timetables;
using Xunit;
using OutputFormat = WaterScript.Documents.Timetables.OutputFormat;

namespace WaterScript.Tests.Documents;

/// <summary>What every example gives, and what of a source its hash depends on.</summary>
public class ExampleOutputTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(Repository.Read("docs/timetable.schema.json"));

    public static TheoryData<string> Roots => [.. Repository.ExampleFiles.Where(path => Repository.Read(path).Contains("\nsite ", StringComparison.Ordinal))];

    [Theory]
    [MemberData(nameof(Roots))]
    public void An_example_is_what_the_schema_says_and_the_same_in_yaml_and_json(string path)
    {
        var site = Example.Read(path).Site!;
        var timetable = Timetable.Of(site, Samples.AreAll ? Horizon.YearFrom(site.Effective) : Horizon.DaysFrom(site.Effective, Samples.Of(365)));
        var json = Write(timetable, OutputFormat.Json);
        Assert.True(Schema.Evaluate(JsonDocument.Parse(json).RootElement).IsValid);
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(json), Trees.FromYaml(Write(timetable, OutputFormat.Yaml))));
    }

    [Fact]
    public void The_hash_is_of_content_and_not_of_layout_comments_or_files()
    {
        const string Plain = """
            site garden { timezone Europe/Lisbon; effective 2026-03-01 }
            zone lawn { output 1; flow 10 L/min }
            schedule morning { every day; start at 06:00; steps { water lawn for 10 min } }
            """;
        var hash = HashOf(Plain);
        Assert.Equal(hash, HashOf("# a comment\n"
            + Plain.Replace("; ", "\n   ", StringComparison.Ordinal).Replace("lawn {", "lawn   {\n  # here\n", StringComparison.Ordinal)
            .ReplaceLineEndings("\r\n")));
        Assert.Equal(hash, HashOf(Plain.Replace("zone lawn { output 1; flow 10 L/min }", "include \"zones.water\"", StringComparison.Ordinal),
            ("zones.water", "zone lawn { flow 10.0 L/min; output 1 }")));
        Assert.Equal(hash, HashOf(Plain.Replace("10 L/min", "600 L/h", StringComparison.Ordinal)));
        Assert.NotEqual(hash, HashOf(Plain.Replace("10 L/min", "11 L/min", StringComparison.Ordinal)));
        Assert.NotEqual(hash, HashOf(Plain.Replace("06:00", "06:01", StringComparison.Ordinal)));
    }

    private static string HashOf(string text, params (string Path, string Text)[] files)
    {
        var others = new MemoryFiles(files.ToDictionary(file => file.Path, file => file.Text));
        var reading = SiteReader.Read(SourceText.From("site.water", text), "site.water", others, DateTimeZoneProviders.Tzdb);
        Assert.False(reading.Findings.HasErrors);
        var json = Write(Timetable.Of(reading.Site!, Horizon.DaysFrom(reading.Site!.Effective, 1)), OutputFormat.Json);
        return JsonNode.Parse(json)!["site"]!["sha256"]!.GetValue<string>();
    }

    private static string Write(Timetable timetable, OutputFormat format)
    {
        var output = new MemoryStream();
        TimetableOutput.Write(timetable, format, new OutputOptions(), output);
        return Encoding.UTF8.GetString(output.ToArray());
    }
}
