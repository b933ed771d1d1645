using System.Globalization;
using System.Text.Json.Nodes;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace WaterScript.Tests.Documents;

/// <summary>Reads YAML as a reader of version 1.2 with the core schema does, into the tree that JSON gives.</summary>
internal static class Trees
{
    public static JsonNode? FromYaml(string yaml)
    {
        var parser = new Parser(new StringReader(yaml));
        parser.Consume<StreamStart>();
        parser.Consume<DocumentStart>();
        var root = Read(parser);
        parser.Consume<DocumentEnd>();
        parser.Consume<StreamEnd>();
        return root;
    }

    /// <summary>The plain scalars of a document, which a reader may take for something other than text.</summary>
    public static List<string> PlainScalars(string yaml)
    {
        var parser = new Parser(new StringReader(yaml));
        List<string> plain = [];
        while (parser.MoveNext())
        {
            if (parser.Current is Scalar { Style: ScalarStyle.Plain } scalar) plain.Add(scalar.Value);
        }

        return plain;
    }

    private static JsonNode? Read(Parser parser)
    {
        if (parser.TryConsume<MappingStart>(out _))
        {
            var map = new JsonObject();
            while (!parser.TryConsume<MappingEnd>(out _)) map.Add(parser.Consume<Scalar>().Value, Read(parser));
            return map;
        }

        if (parser.TryConsume<SequenceStart>(out _))
        {
            var list = new JsonArray();
            while (!parser.TryConsume<SequenceEnd>(out _)) list.Add(Read(parser));
            return list;
        }

        var scalar = parser.Consume<Scalar>();
        return scalar.Style == ScalarStyle.Plain ? Resolve(scalar.Value) : JsonValue.Create(scalar.Value);
    }

    private static JsonNode? Resolve(string plain) => plain switch
    {
        "true" => true,
        "false" => false,
        "null" or "~" or "" => null,
        _ when decimal.TryParse(plain, NumberStyles.Float, CultureInfo.InvariantCulture, out _) => JsonNode.Parse(plain),
        _ => plain,
    };
}
