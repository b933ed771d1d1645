using System.Text.Encodings.Web;
using System.Text.Json;
using WaterScript.Text;

namespace WaterScript.Documents.Writers;

/// <summary>
/// JSON (RFC 8259). Letters of any script stay readable: the document is a file of its own and never a part of a web page. What turns the
/// direction of reading, or hides, is written by its number, which a reader takes for the same.
/// </summary>
internal sealed class JsonWriter : DocumentWriter
{
    /// <summary>Leaves letters of any script as they are.</summary>
    public static readonly JavaScriptEncoder Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping;

    private const int FlushAt = 1 << 15;
    private readonly Stream _output;
    private readonly Utf8JsonWriter _json;
    private readonly bool _isIndented;

    /// <summary>Writes to a stream, which stays open.</summary>
    public JsonWriter(Stream output, bool isIndented)
    {
        _output = output;
        _isIndented = isIndented;
        _json = new Utf8JsonWriter(output, new JsonWriterOptions
        {
            Encoder = Encoder,
            Indented = isIndented,
            NewLine = "\n",
        });
    }

    public override void StartMap(Layout layout = Layout.Lines) => _json.WriteStartObject();

    public override void EndMap()
    {
        _json.WriteEndObject();
        if (_json.BytesPending >= FlushAt) _json.Flush();
    }

    public override void StartList(Layout layout = Layout.Lines) => _json.WriteStartArray();

    public override void EndList() => _json.WriteEndArray();

    public override void Key(string name) => _json.WritePropertyName(name);

    public override void Text(string value) => WriteText(_json, value);

    public override void Ascii(ReadOnlySpan<byte> value) => _json.WriteStringValue(value);

    public override void Number(long value) => _json.WriteNumberValue(value);

    public override void Number(decimal value) => _json.WriteNumberValue(value);

    public override void Flag(bool value) => _json.WriteBooleanValue(value);

    /// <summary>Writes a text as all documents have it.</summary>
    public static void WriteText(Utf8JsonWriter json, string value)
    {
        // A value with an own spelling is written raw, so what the encoder does to all others has to be done to it first.
        if (value.AsSpan().IndexOfAnyInRange('\u061C', '\uFEFF') < 0 || HiddenCharacter.Escaped(Encoder.Encode(value)) is not { } escaped)
            json.WriteStringValue(value);
        else json.WriteRawValue($"\"{escaped}\"", skipInputValidation: true);
    }

    public override void Dispose()
    {
        _json.Dispose();
        if (_isIndented) _output.Write("\n"u8);
    }
}
