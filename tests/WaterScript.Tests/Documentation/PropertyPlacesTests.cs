using System.Text.Json.Nodes;
using WaterScript.Language;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>A property is in the reference, in the described site as YAML and as JSON, and in the JSON Schema of that.</summary>
public class PropertyPlacesTests
{
    private static readonly string Reference = Repository.Read("docs/language.md").ReplaceLineEndings("\n");
    private static readonly TimetableSchema JsonSchema = TimetableSchema.Read();

    public static TheoryData<string, string> Properties
    {
        get
        {
            var data = new TheoryData<string, string>();
            foreach (var block in Schema.Blocks)
            {
                foreach (var property in block.Properties) data.Add(block.Kind, property.Name);
            }

            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Properties))]
    public void A_property_is_in_the_reference(string kind, string name)
    {
        var (block, property) = Find(kind, name);
        var tables = kind is "master" or "injector" ? new[] { kind, "pump" } : [kind];
        Assert.Contains(tables.Select(TableOf), table => table.Contains($"`{FormInTable(block, property)}`", StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Properties))]
    public void A_property_is_described(string kind, string name)
    {
        var (block, property) = Find(kind, name);
        var without = DescribedSite.Of(block, property, line: null);
        Assert.NotEmpty(property.Keys);
        foreach (var key in property.Keys)
        {
            var with = DescribedSite.Of(block, property, key.Form ?? property.Form);
            var section = key.Section ?? block.Section;
            AssertChanges(DescribedSite.Find(without.Json, section, key), DescribedSite.Find(with.Json, section, key), $"{key.Name} in JSON");
            AssertChanges(DescribedSite.Find(without.Yaml, section, key), DescribedSite.Find(with.Yaml, section, key), $"{key.Name} in YAML");
        }
    }

    [Theory]
    [MemberData(nameof(Properties))]
    public void A_property_is_in_the_json_schema(string kind, string name)
    {
        var (block, property) = Find(kind, name);
        Assert.NotEmpty(property.Keys);
        Assert.All(property.Keys, key => Assert.True(
            JsonSchema.Allows(key.Section ?? block.Section, key.Name, key.Inner),
            $"{TimetableSchema.Path} does not have {key.Name} {key.Inner}"));
    }

    /// <summary>What is described must come from the line, and not be there anyhow.</summary>
    private static void AssertChanges(JsonNode? without, JsonNode? with, string key)
    {
        Assert.True(with is not null, $"the described site does not have {key}");
        Assert.False(JsonNode.DeepEquals(without, with), $"{key} is the same without the property");
    }

    private static (BlockSchema Block, Property Property) Find(string kind, string name)
    {
        var block = Schema.Blocks.Single(block => block.Kind == kind);
        return (block, block.Find(name)!);
    }

    /// <summary>Of twelve months the table shows the first.</summary>
    private static string FormInTable(BlockSchema block, Property property) =>
        MonthNames.All.Contains(property.Name) ? block.Find(MonthNames.All[0])!.Form : property.Form;

    private static string TableOf(string kind)
    {
        var at = Reference.IndexOf($"<!-- properties of {kind} -->\n\n", StringComparison.Ordinal);
        return at < 0 ? "" : string.Join('\n', Reference[at..].Split('\n').Skip(2).TakeWhile(line => line.StartsWith('|')));
    }
}
