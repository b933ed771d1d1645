using Wcwidth;

namespace WaterScript.Text;

/// <summary>How many columns of a terminal a text takes.</summary>
internal static class DisplayWidth
{
    /// <summary>The columns of a text. A control character has no width; where there is one, each UTF-16 unit counts as one.</summary>
    public static int Of(string text)
    {
        if (!text.AsSpan().ContainsAnyExceptInRange(' ', '~')) return text.Length;
        var width = UnicodeCalculator.GetWidth(text);
        return width >= 0 ? width : text.Length;
    }
}
