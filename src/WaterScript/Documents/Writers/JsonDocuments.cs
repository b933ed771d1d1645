using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;

namespace WaterScript.Documents.Writers;

/// <summary>Writes documents for programs from their records: indented, in the order of the members, without what is null.</summary>
internal static class JsonDocuments
{
    /// <summary>Number of the form of every document; it goes up when a program that reads one has to read it otherwise.</summary>
    public const int Form = 1;

    /// <summary>What the schema says of that number.</summary>
    public const string FormMeaning = "Number of this form; it goes up when a program that reads it has to read it otherwise.";

    /// <summary>How they are written, for a context of its own.</summary>
    public static JsonSerializerOptions Options() => new()
    {
        Encoder = JsonWriter.Encoder,
        WriteIndented = true,
        NewLine = "\n",
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower,
        Converters = { new PlainText() },
    };

    /// <summary>Writes a document, a part at a time, and ends its last line. Lists that are worked out as they are read are never held.</summary>
    /// <param name="output">Stays open.</param>
    /// <param name="document">The document.</param>
    /// <param name="type">Its type, with <see cref="Options"/>.</param>
    public static void Write<T>(Stream output, T document, JsonTypeInfo<T> type)
    {
        JsonSerializer.Serialize(output, document, type);
        output.Write("\n"u8);
    }

    /// <summary>Texts as all documents have them.</summary>
    private sealed class PlainText : JsonConverter<string>
    {
        public override string? Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => reader.GetString();

        public override void Write(Utf8JsonWriter writer, string value, JsonSerializerOptions options) => JsonWriter.WriteText(writer, value);

        public override void WriteAsPropertyName(Utf8JsonWriter writer, string value, JsonSerializerOptions options) => writer.WritePropertyName(value);
    }
}
