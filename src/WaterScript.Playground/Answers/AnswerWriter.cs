using System.Buffers;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace WaterScript.Playground.Answers;

/// <summary>Writes answers without the serializer, as <see cref="QuestionReader"/> reads questions. Each record is an object of its properties.</summary>
internal sealed class AnswerWriter : IDisposable
{
    private readonly Utf8JsonWriter _json;

    // The page parses it: what would be dangerous within a page need not be escaped.
    private AnswerWriter(IBufferWriter<byte> output) =>
        _json = new Utf8JsonWriter(output, new JsonWriterOptions { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });

    /// <summary>An answer as text.</summary>
    public static string Of(IPageAnswer answer)
    {
        var output = new ArrayBufferWriter<byte>();
        using (var writer = new AnswerWriter(output)) writer.Object(() => answer.Write(writer));
        return Encoding.UTF8.GetString(output.WrittenSpan);
    }

    /// <inheritdoc/>
    public void Dispose() => _json.Dispose();

    /// <summary>A text, or null.</summary>
    public void Text(string name, string? value) => _json.WriteString(name, value);

    /// <summary>A number.</summary>
    public void Number(string name, int value) => _json.WriteNumber(name, value);

    /// <summary>Yes or no.</summary>
    public void Truth(string name, bool value) => _json.WriteBoolean(name, value);

    /// <summary>A part.</summary>
    public void Part(string name, IPageAnswer part)
    {
        _json.WritePropertyName(name);
        Object(() => part.Write(this));
    }

    /// <summary>Parts.</summary>
    public void Parts(string name, IEnumerable<IPageAnswer> parts)
    {
        _json.WriteStartArray(name);
        foreach (var part in parts) Object(() => part.Write(this));
        _json.WriteEndArray();
    }

    /// <summary>Texts.</summary>
    public void Texts(string name, IEnumerable<string> texts)
    {
        _json.WriteStartArray(name);
        foreach (var text in texts) _json.WriteStringValue(text);
        _json.WriteEndArray();
    }

    /// <summary>Numbers by names.</summary>
    public void NumbersByName(string name, IReadOnlyDictionary<string, int[]> lists)
    {
        _json.WriteStartObject(name);
        foreach (var (each, numbers) in lists)
        {
            _json.WriteStartArray(each);
            foreach (var number in numbers) _json.WriteNumberValue(number);
            _json.WriteEndArray();
        }

        _json.WriteEndObject();
    }

    private void Object(Action write)
    {
        _json.WriteStartObject();
        write();
        _json.WriteEndObject();
    }
}
