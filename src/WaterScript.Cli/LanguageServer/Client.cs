using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;

namespace WaterScript.Cli.LanguageServer;

/// <summary>What is sent to the client.</summary>
/// <param name="stream">Where to.</param>
internal sealed class Client(MessageStream stream)
{
    private int _requests;

    /// <summary>Hands an answer over.</summary>
    /// <param name="id">The JSON of the request's id.</param>
    /// <param name="result">The answer, or null.</param>
    /// <param name="type">Its type.</param>
    public void Answer<T>(string id, T? result, JsonTypeInfo<T> type) => Send(writer =>
    {
        WriteId(writer, id);
        writer.WritePropertyName("result");
        if (result is null) writer.WriteNullValue();
        else JsonSerializer.Serialize(writer, result, type);
    });

    /// <summary>Says why there is no answer.</summary>
    /// <param name="id">The JSON of the request's id; null where it is not known.</param>
    /// <param name="code">One of <see cref="ErrorCode"/>.</param>
    /// <param name="message">A sentence.</param>
    public void Refuse(string? id, int code, string message) => Send(writer =>
    {
        WriteId(writer, id ?? "null");
        writer.WriteStartObject("error");
        writer.WriteNumber("code", code);
        writer.WriteString("message", message);
        writer.WriteEndObject();
    });

    /// <summary>Lets the client know something.</summary>
    public void Notify<T>(string method, T parameters, JsonTypeInfo<T> type) => Send(writer => WriteCall(writer, method, parameters, type));

    /// <summary>Asks the client for something; what it answers makes no difference.</summary>
    public void Request<T>(string method, T parameters, JsonTypeInfo<T> type) => Send(writer =>
    {
        WriteId(writer, NextId());
        WriteCall(writer, method, parameters, type);
    });

    /// <summary>Asks the client for something that needs no more words.</summary>
    public void Request(string method) => Send(writer =>
    {
        WriteId(writer, NextId());
        writer.WriteString("method", method);
    });

    private string NextId() => Interlocked.Increment(ref _requests).ToString(CultureInfo.InvariantCulture);

    private static void WriteCall<T>(Utf8JsonWriter writer, string method, T parameters, JsonTypeInfo<T> type)
    {
        writer.WriteString("method", method);
        writer.WritePropertyName("params");
        JsonSerializer.Serialize(writer, parameters, type);
    }

    private static void WriteId(Utf8JsonWriter writer, string id)
    {
        writer.WritePropertyName("id");
        writer.WriteRawValue(id);
    }

    private void Send(Action<Utf8JsonWriter> write)
    {
        using var body = new MemoryStream();
        using (var writer = new Utf8JsonWriter(body))
        {
            writer.WriteStartObject();
            writer.WriteString("jsonrpc", "2.0");
            write(writer);
            writer.WriteEndObject();
        }

        stream.Write(body.GetBuffer().AsSpan(0, (int)body.Length));
    }
}
