using System.ComponentModel;
using System.Reflection;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Schema;
using System.Text.Json.Serialization.Metadata;
using WaterScript.Documents.Writers;

namespace WaterScript.Tests.Documentation;

/// <summary>
/// Writes a JSON Schema from the records that documents are written from, by the exporter of System.Text.Json. What their attributes say is added to what it
/// finds; a record with a name stands once, among the definitions.
/// </summary>
internal sealed class SchemaExport
{
    private static readonly JsonSerializerOptions Layout =
        new() { WriteIndented = true, IndentSize = 2, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    private readonly JsonObject _definitions = [];
    private readonly JsonObject _root = [];
    private readonly JsonArray _kinds = [];
    private JsonTypeInfo? _current;

    /// <summary>Begins with what it is called, and what is not a record.</summary>
    public SchemaExport(string title, string description, JsonObject definitions)
    {
        _root["$schema"] = "https://json-schema.org/draft/2020-12/schema";
        _root["title"] = title;
        _root["description"] = description;
        _root["oneOf"] = _kinds;
        _root["$defs"] = _definitions;
        foreach (var (name, definition) in definitions) _definitions[name] = definition!.DeepClone();
    }

    /// <summary>How documents are written, but for how texts are, which a schema does not say.</summary>
    public static JsonSerializerOptions Options()
    {
        var options = JsonDocuments.Options();
        options.Converters.Clear();
        return options;
    }

    /// <summary>Adds a document.</summary>
    public SchemaExport Add(JsonTypeInfo type)
    {
        Define(type);
        _kinds.Add(Reference(ShapeOf(type.Type)!.Of!));
        return this;
    }

    /// <summary>The schema.</summary>
    public override string ToString() => _root.ToJsonString(Layout) + "\n";

    private void Define(JsonTypeInfo type)
    {
        var name = ShapeOf(type.Type)!.Of!;
        if (_definitions.ContainsKey(name)) return;
        _definitions[name] = null;
        var outer = _current;
        _current = type;
        var schema = Exported(type);
        _current = outer;
        _definitions[name] = Described(type.Type.GetCustomAttribute<DescriptionAttribute>(), schema);
    }

    private JsonObject Exported(JsonTypeInfo type) =>
        type.GetJsonSchemaAsNode(new JsonSchemaExporterOptions { TreatNullObliviousAsNonNullable = true, TransformSchemaNode = Transform }).AsObject();

    private JsonObject Transform(JsonSchemaExporterContext context, JsonNode node)
    {
        // What the exporter met before it points to by its place, which is not where it will stand.
        if (node["$ref"] is not null && ShapeOf(context.TypeInfo.Type)?.Of is null) node = Exported(context.TypeInfo);
        var schema = Simple(node.AsObject());
        var type = Nullable.GetUnderlyingType(context.TypeInfo.Type) ?? context.TypeInfo.Type;
        if (schema["properties"] is not null) Complete(schema, context.TypeInfo);
        if (ShapeOf(type)?.Of is { } name && context.TypeInfo.Type != _current!.Type)
        {
            Define(context.TypeInfo);
            schema = Reference(name);
        }

        if (context.PropertyInfo?.AttributeProvider is not { } member) return schema;
        if (Nullable.GetUnderlyingType(context.TypeInfo.Type) == typeof(bool)) schema = new JsonObject { ["const"] = true };
        if (Attribute<ShapeAttribute>(member) is { } shape) schema = Shaped(schema, shape);
        return Described(Attribute<DescriptionAttribute>(member), schema);
    }

    /// <summary>What is null is left out, so no value is.</summary>
    private static JsonObject Simple(JsonObject schema)
    {
        if (schema["type"] is JsonArray types) schema["type"] = types.Single(type => type!.GetValue<string>() != "null")!.DeepClone();
        return schema;
    }

    private static void Complete(JsonObject schema, JsonTypeInfo type)
    {
        schema.Remove("required");
        var properties = schema["properties"]!.DeepClone();
        schema.Remove("properties");
        schema["additionalProperties"] = false;
        var required = type.Properties.OrderBy(property => property.Order).Where(IsAlwaysThere).Select(property => JsonValue.Create(property.Name));
        schema["required"] = new JsonArray([.. required]);
        if (ShapeOf(type.Type)?.OneOf is { } keys)
            schema["oneOf"] = new JsonArray([.. keys.Select(key => new JsonObject { ["required"] = new JsonArray(key) })]);
        schema["properties"] = properties;
    }

    private static bool IsAlwaysThere(JsonPropertyInfo property) => Nullable.GetUnderlyingType(property.PropertyType) is null && !property.IsGetNullable;

    private static JsonObject Shaped(JsonObject schema, ShapeAttribute shape)
    {
        if (shape.Only != 0) return new JsonObject { ["const"] = shape.Only };
        if (shape.Words is { } words) return new JsonObject { ["enum"] = new JsonArray([.. words.Select(word => JsonValue.Create(word))]) };
        if (shape.Keys is { } keys) schema["propertyNames"] = new JsonObject { ["enum"] = new JsonArray([.. keys.Select(key => JsonValue.Create(key))]) };
        if (shape.Least != int.MinValue) schema["minimum"] = shape.Least;
        if (shape.Of is not { } name) return schema;
        if (schema["items"] is null) return Reference(name);
        schema["items"] = Reference(name);
        return schema;
    }

    private static JsonObject Described(DescriptionAttribute? attribute, JsonObject schema)
    {
        if (attribute is not null) schema.Insert(0, "description", attribute.Description);
        return schema;
    }

    private static JsonObject Reference(string name) => new() { ["$ref"] = $"#/$defs/{name}" };

    private static ShapeAttribute? ShapeOf(Type type) => type.GetCustomAttribute<ShapeAttribute>(inherit: false);

    private static T? Attribute<T>(ICustomAttributeProvider member)
        where T : Attribute => member.GetCustomAttributes(typeof(T), inherit: false).OfType<T>().SingleOrDefault();
}
