using System.Globalization;
using System.Text;
using Antlr4.Runtime;

namespace WaterScript.Syntax;

/// <summary>Reads labels.</summary>
internal static class Labels
{
    /// <summary>What a label says: its quotes taken off and its escapes read.</summary>
    public static string Read(IToken token, Mistakes mistakes)
    {
        var text = token.Text;
        var value = new StringBuilder(text.Length);
        for (var i = 1; i < text.Length - 1; i++)
        {
            if (text[i] != '\\')
            {
                value.Append(text[i]);
                continue;
            }

            i++;
            if (text[i] == 'u' && text[i + 1] == '{')
            {
                var close = text.IndexOf('}', i);
                value.Append(char.ConvertFromUtf32(int.Parse(text[(i + 2)..close], NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture)));
                i = close;
            }
            else
            {
                value.Append(text[i] == 'n' ? '\n' : text[i]);
            }
        }

        return value.ToString();
    }
}
