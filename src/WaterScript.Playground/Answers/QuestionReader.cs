using System.Text;
using System.Text.Json;

namespace WaterScript.Playground.Answers;

/// <summary>Reads a question without the serializer, which an interpreter takes a tenth of its start to get ready for a few names.</summary>
internal static class QuestionReader
{
    /// <summary>Reads a question.</summary>
    /// <exception cref="JsonException">It is none.</exception>
    public static PageQuestion Read(string json)
    {
        try
        {
            var reader = new Utf8JsonReader(Encoding.UTF8.GetBytes(json));
            if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject) throw new JsonException();
            var question = new PageQuestion { Method = "" };
            while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName) question = With(question, reader.GetString()!, ref reader);
            return reader.Read() ? throw new JsonException() : question;
        }
        catch (Exception problem) when (problem is InvalidOperationException or FormatException or ArgumentException)
        {
            throw new JsonException(null, problem);
        }
    }

    private static PageQuestion With(PageQuestion question, string name, ref Utf8JsonReader reader)
    {
        reader.Read();
        switch (name)
        {
            case "method": return question with { Method = reader.GetString() ?? "" };
            case "root": return question with { Root = reader.GetString() };
            case "files": return question with { Files = Texts(ref reader) };
            case "file": return question with { File = reader.GetString() };
            case "from": return question with { From = reader.GetInt32() };
            case "to": return question with { To = reader.GetInt32() };
            case "first": return question with { First = reader.GetString() };
            case "days": return question with { Days = reader.GetInt32() };
            case "format": return question with { Format = reader.GetString() };
            default:
                reader.Skip();
                return question;
        }
    }

    private static Dictionary<string, string>? Texts(ref Utf8JsonReader reader)
    {
        if (reader.TokenType == JsonTokenType.Null) return null;
        if (reader.TokenType != JsonTokenType.StartObject) throw new JsonException();
        var texts = new Dictionary<string, string>(StringComparer.Ordinal);
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var path = reader.GetString()!;
            reader.Read();
            texts[path] = reader.GetString() ?? throw new JsonException();
        }

        return texts;
    }
}
