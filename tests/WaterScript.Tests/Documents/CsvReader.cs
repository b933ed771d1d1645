using System.Text;

namespace WaterScript.Tests.Documents;

/// <summary>Reads CSV by the grammar of RFC 4180, section 2, letter for letter: nothing that it does not allow gets through.</summary>
internal static class CsvReader
{
    public static List<string[]> Read(string text)
    {
        List<string[]> records = [];
        List<string> fields = [];
        var at = 0;
        while (at < text.Length)
        {
            fields.Add(text[at] == '"' ? Escaped(text, ref at) : NonEscaped(text, ref at));
            if (at < text.Length && text[at] == ',')
            {
                at++;
                if (at == text.Length || text[at] == '\r') fields.Add("");
                if (at < text.Length && text[at] != '\r') continue;
            }

            if (at + 1 >= text.Length || text[at] != '\r' || text[at + 1] != '\n') throw new FormatException($"no CR LF at {at}");
            at += 2;
            records.Add([.. fields]);
            fields.Clear();
        }

        return records;
    }

    private static string NonEscaped(string text, ref int at)
    {
        var start = at;
        while (at < text.Length && text[at] is not (',' or '\r'))
        {
            if (text[at] is '"' or '\n') throw new FormatException($"a quote or LF in a bare field at {at}");
            at++;
        }

        return text[start..at];
    }

    private static string Escaped(string text, ref int at)
    {
        var value = new StringBuilder();
        for (at++; ; at++)
        {
            if (text[at] != '"')
            {
                value.Append(text[at]);
            }
            else if (at + 1 < text.Length && text[at + 1] == '"')
            {
                value.Append('"');
                at++;
            }
            else
            {
                at++;
                return value.ToString();
            }
        }
    }
}
