using System.Globalization;
using System.Text;
using WaterScript.Text;

namespace WaterScript.Documents.Charts.Pages;

/// <summary>Writes elements that are good XML and good HTML alike. No text can end its element or attribute.</summary>
internal sealed class MarkupWriter
{
    private readonly StringBuilder _text = new();
    private readonly Stack<string> _open = new();

    /// <summary>A coordinate: <c>12.5</c>.</summary>
    public static string Number(double value) => Math.Round(value, 2, MidpointRounding.AwayFromZero).ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>Begins an element.</summary>
    public MarkupWriter Open(string name, params ReadOnlySpan<(string Name, string Value)> attributes)
    {
        Start(name, attributes);
        _text.Append('>');
        _open.Push(name);
        return this;
    }

    /// <summary>An element without content.</summary>
    public MarkupWriter Empty(string name, params ReadOnlySpan<(string Name, string Value)> attributes)
    {
        Start(name, attributes);
        _text.Append("/>\n");
        return this;
    }

    /// <summary>An element with nothing but a text.</summary>
    public MarkupWriter Element(string name, string text, params ReadOnlySpan<(string Name, string Value)> attributes) =>
        Open(name, attributes).Text(text).Close();

    /// <summary>A text, whatever stands in it.</summary>
    public MarkupWriter Text(string text)
    {
        Escape(text);
        return this;
    }

    /// <summary>Markup, or the content of a style or script, as it is.</summary>
    public MarkupWriter Raw(string markup)
    {
        _text.Append(markup);
        return this;
    }

    /// <summary>Ends the element that was begun last.</summary>
    public MarkupWriter Close()
    {
        var name = _open.Pop();
        _text.Append("</").Append(name).Append('>');
        // A line end would be a blank in the text around it.
        if (name is not ("b" or "a" or "small" or "span")) _text.Append('\n');
        return this;
    }

    /// <summary>All of it, in UTF-8.</summary>
    public void WriteTo(Stream stream) => stream.Write(Encoding.UTF8.GetBytes(_text.ToString()));

    private void Start(string name, ReadOnlySpan<(string Name, string Value)> attributes)
    {
        _text.Append('<').Append(name);
        foreach (var (attribute, value) in attributes)
        {
            _text.Append(' ').Append(attribute).Append("=\"");
            Escape(value);
            _text.Append('"');
        }
    }

    private void Escape(string text)
    {
        foreach (var rune in DisplayLine.Clean(text).EnumerateRunes())
        {
            _ = rune.Value switch
            {
                '&' => _text.Append("&amp;"),
                '<' => _text.Append("&lt;"),
                '>' => _text.Append("&gt;"),
                '"' => _text.Append("&quot;"),
                0xFFFE or 0xFFFF => _text.Append('\uFFFD'),
                _ => _text.Append(rune.ToString()),
            };
        }
    }
}
