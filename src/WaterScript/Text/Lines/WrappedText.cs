using System.Text;

namespace WaterScript.Text.Lines;

/// <summary>Words in lines of a width.</summary>
internal static class WrappedText
{
    private const string Hanging = "  ";

    /// <summary>Breaks a text at its spaces; further lines begin with two more spaces than the first. A word that is too long stands alone.</summary>
    /// <param name="text">The text, without line ends.</param>
    /// <param name="columns">Columns of a line.</param>
    public static IEnumerable<string> Of(string text, int columns)
    {
        ArgumentNullException.ThrowIfNull(text);
        var words = text.TrimStart(' ');
        var line = new StringBuilder(text[..(text.Length - words.Length)]);
        var (indent, width, isEmpty) = (line.Length, line.Length, true);
        foreach (var word in words.Split(' '))
        {
            var length = DisplayWidth.Of(word);
            if (!isEmpty && width + 1 + length > columns)
            {
                yield return line.ToString();
                line.Clear().Append(' ', indent).Append(Hanging);
                (width, isEmpty) = (line.Length, true);
            }

            line.Append(isEmpty ? "" : " ").Append(word);
            width += length + (isEmpty ? 0 : 1);
            isEmpty = false;
        }

        yield return line.ToString();
    }
}
