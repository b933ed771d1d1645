using System.Text;

namespace WaterScript.Comparison;

/// <summary>Text within Markdown (CommonMark 0.31, 2.4: any ASCII punctuation may have a backslash before it).</summary>
internal static class Markdown
{
    private const string Marks = "\\`*_{}[]<>#|~&@!$";

    /// <summary>The text with every mark that could be read as markup, a link or a mention taken as itself, on one line.</summary>
    public static string Escaped(string text)
    {
        var escaped = new StringBuilder(text.Length);
        foreach (var letter in text)
        {
            if (Marks.Contains(letter, StringComparison.Ordinal)) escaped.Append('\\');
            escaped.Append(letter is '\n' or '\r' ? ' ' : letter);
        }

        return escaped.ToString();
    }
}
