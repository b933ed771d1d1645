using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using WaterScript.Language;

namespace WaterScript.Tests.Documentation;

/// <summary>
/// The JSON Schema of a timetable, <c>docs/timetable.schema.json</c>. What it says of the properties of blocks comes from the schema of the language;
/// the frame around them, and what a composite value consists of, is written by hand.
/// </summary>
internal sealed class TimetableSchema(JsonObject root)
{
    /// <summary>Where it lies.</summary>
    public const string Path = "docs/timetable.schema.json";

    private static readonly JsonSerializerOptions Written =
        new() { WriteIndented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Entries that are no properties, before those and after them.</summary>
    private static readonly string[][] Frame = [["name", "label", "kind"], ["power", "timezone_data", "sources_sha256", "revision", "sha256"]];

    /// <summary>As it stands in the repository.</summary>
    public static TimetableSchema Read() => new(JsonNode.Parse(Repository.Read(Path))!.AsObject());

    /// <summary>Its text with the properties as the schema of the language has them.</summary>
    public string Text()
    {
        var made = root.DeepClone().AsObject();
        foreach (var blocks in Schema.Blocks.GroupBy(block => block.Section)) new TimetableSchema(made).Fill(blocks.Key, [.. blocks]);
        return made.ToJsonString(Written) + "\n";
    }

    /// <summary>Whether it allows a key in a section of the document, and in the value of that key one more.</summary>
    public bool Allows(string section, string key, string? inner) => ObjectsOf(section)
        .Select(entries => entries["properties"]![key])
        .Any(found => found is not null && (inner is null || Objects(found).Any(entries => entries["properties"]![inner] is not null)));

    private static void Fill(JsonObject entries, IEnumerable<Property> properties)
    {
        var (old, made, required) = (entries["properties"]!.AsObject(), new JsonObject(), new JsonArray());
        var isRequired = entries["required"]?.AsArray().Select(key => (string)key!).ToHashSet() ?? [];
        foreach (var key in Frame[0]) Keep(key);
        foreach (var (property, key) in properties.SelectMany(property => property.Keys.Where(key => key.Section is null).Select(key => (property, key))))
        {
            if (made.TryAdd(key.Name, Entry(key)) && (property.IsAlwaysDescribed || key.IsAlways)) required.Add(key.Name);
        }

        foreach (var key in Frame[1]) Keep(key);
        entries["properties"] = made;
        if (required.Count > 0) entries["required"] = required;

        void Keep(string key)
        {
            if (old[key] is not { } kept) return;
            made.Add(key, kept.DeepClone());
            if (isRequired.Contains(key)) required.Add(key);
        }
    }

    /// <summary>A scale is given in one way of several; each has an object of its own.</summary>
    private static JsonObject WayOf(JsonNode way, IGrouping<string, Property> properties)
    {
        var made = way.DeepClone().AsObject();
        Fill(made, properties);
        made["required"] = new JsonArray("name", properties.Key);
        return made;
    }

    private static JsonObject Entry(DescribedKey key)
    {
        var entry = new JsonObject();
        if (key.Help.Length > 0) entry.Add("description", key.Help);
        foreach (var (name, value) in Shape(key.Shape)) entry.Add(name, value?.DeepClone());
        return entry;
    }

    private static JsonObject Shape(ValueShape shape) => shape switch
    {
        NumberShape number => Bounded("number", number.Bounds.Least, number.Bounds.Most),
        CountShape count => Bounded("integer", 1, count.Most),
        TrueShape => new JsonObject { ["const"] = true },
        TrueOrFalseShape => new JsonObject { ["type"] = "boolean" },
        TextShape => new JsonObject { ["type"] = "string" },
        WordShape word => new JsonObject { ["enum"] = new JsonArray([.. word.Words.Select(one => (JsonNode)one)]) },
        DefinedShape defined => new JsonObject { ["$ref"] = $"#/$defs/{defined.Name}" },
        ListShape list => ListOf(list),
        _ => throw new ArgumentOutOfRangeException(nameof(shape)),
    };

    private static JsonObject Bounded(string type, decimal? least, decimal? most)
    {
        var shape = new JsonObject { ["type"] = type };
        if (least is { } minimum) shape.Add("minimum", minimum);
        if (most is { } maximum) shape.Add("maximum", maximum);
        return shape;
    }

    private static JsonObject ListOf(ListShape list)
    {
        var shape = new JsonObject { ["type"] = "array" };
        if (list.Least > 0) shape.Add("minItems", list.Least);
        if (list.Most is { } most) shape.Add("maxItems", most);
        shape.Add("items", Shape(list.Item));
        return shape;
    }

    private void Fill(string section, BlockSchema[] blocks)
    {
        if (section == "scales")
        {
            var ways = root["$defs"]!["scale"]!["oneOf"]!.AsArray();
            root["$defs"]!["scale"]!["oneOf"] = new JsonArray([.. blocks[0].Properties.GroupBy(property => property.Key).Select(way => WayOf(ways[0]!, way))]);
            return;
        }

        foreach (var entries in ObjectsOf(section))
        {
            var kind = (string?)entries["properties"]!["kind"]?["const"];
            Fill(entries, blocks.Where(block => kind is null || block.Kind == $"valve {kind}").SelectMany(block => block.Properties));
        }
    }

    private JsonObject[] ObjectsOf(string section) =>
        section.Split('/').Aggregate(
            Objects(root),
            (found, key) => found.SelectMany(entries => Objects(entries["properties"]![key]!)),
            found => found.ToArray());

    /// <summary>The objects that a node of the schema describes, through references, lists and choices.</summary>
    private IEnumerable<JsonObject> Objects(JsonNode node)
    {
        if ((string?)node["$ref"] is { } reference) return Objects(root["$defs"]![reference["#/$defs/".Length..]]!);
        if (node["items"] is { } items) return Objects(items);
        if (node["oneOf"] is JsonArray choice) return choice.SelectMany(one => Objects(one!));
        return node["properties"] is null ? [] : [node.AsObject()];
    }
}
