using System.Text.Json;

namespace WaterScript.Cli.LanguageServer;

/// <summary>A message of the client.</summary>
/// <param name="Method">What it is about; null for the answer to a request of this server.</param>
/// <param name="Id">The JSON of its number or name, by which it is answered; null for what needs no answer.</param>
/// <param name="Parameters">The rest.</param>
internal sealed record Message(string? Method, string? Id, JsonElement Parameters)
{
    /// <summary>Reads one.</summary>
    /// <exception cref="JsonException">It is no JSON.</exception>
    /// <exception cref="InvalidDataException">It is no message.</exception>
    public static Message Of(byte[] body)
    {
        using var document = JsonDocument.Parse(body);
        var root = document.RootElement;
        if (root.ValueKind != JsonValueKind.Object) throw new InvalidDataException("a message is an object");
        var method = root.TryGetProperty("method", out var name) && name.ValueKind == JsonValueKind.String ? name.GetString() : null;
        var id = root.TryGetProperty("id", out var number) && number.ValueKind is JsonValueKind.Number or JsonValueKind.String ? number.GetRawText() : null;
        if (method is null && id is null) throw new InvalidDataException("a message has a method or an id");
        return new Message(method, id, root.TryGetProperty("params", out var parameters) ? parameters.Clone() : default);
    }
}

/// <summary>Why a request gets no answer.</summary>
/// <param name="code">One of <see cref="ErrorCode"/>.</param>
/// <param name="message">A sentence, shown to people.</param>
internal sealed class RequestException(int code, string message) : Exception(message)
{
    /// <summary>One of <see cref="ErrorCode"/>.</summary>
    public int Code => code;
}

/// <summary>The numbers that the protocol has for errors.</summary>
internal static class ErrorCode
{
    public const int ParseError = -32700;
    public const int InvalidRequest = -32600;
    public const int MethodNotFound = -32601;
    public const int InvalidParams = -32602;
    public const int InternalError = -32603;
    public const int NotInitialized = -32002;
    public const int RequestFailed = -32803;
    public const int ContentModified = -32801;
    public const int Cancelled = -32800;
}
