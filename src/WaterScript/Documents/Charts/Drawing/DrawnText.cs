using WaterScript.Text;

namespace WaterScript.Documents.Charts.Drawing;

/// <summary>A text of a drawing, with room kept for the widest typeface that it may be shown in.</summary>
/// <param name="X">Its left edge.</param>
/// <param name="Y">Its baseline.</param>
/// <param name="Content">The text.</param>
/// <param name="Class">How it looks.</param>
internal sealed record DrawnText(double X, double Y, string Content, string Class)
{
    /// <summary>Size of the letters of all texts but headings.</summary>
    public const double Size = 11;

    private const double Ascent = 0.8;
    private const double Descent = 0.25;

    /// <summary>Its right edge.</summary>
    public double Right => X + WidthOf(Content);

    /// <summary>Its upper edge.</summary>
    public double Top => Y - (Size * Ascent);

    /// <summary>Its lower edge.</summary>
    public double Bottom => Y + (Size * Descent);

    /// <summary>The width of a text.</summary>
    public static double WidthOf(string text) => TextWidth.Of(DisplayLine.Clean(text), Size);

    /// <summary>A text with its middle at a place.</summary>
    public static DrawnText Around(double x, double y, string text, string style) => new(x - (WidthOf(text) / 2), y, text, style);

    /// <summary>A text cut off where there is no more room.</summary>
    public static DrawnText Within(double x, double y, double room, string text, string style) =>
        new(x, y, TextWidth.Fit(DisplayLine.Clean(text), Size, room), style);
}
