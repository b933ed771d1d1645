using System.Globalization;
using System.Xml.Linq;
using WaterScript.Documents.Charts.Drawing;

namespace WaterScript.Tests.Documents.Charts;

/// <summary>Looks at the words of a drawing as a reader would: by the widths of letters, whether any lies on another or sticks out.</summary>
internal static class DrawnWords
{
    private const double Ascent = 9;
    private const double Descent = 2.5;

    public static IEnumerable<string> Faults(string svg, double width, double height)
    {
        var words = XElement.Parse(svg).Descendants("text").Select(Of).Where(word => word.Words.Length > 0).ToList();
        foreach (var word in words.Where(word => word.Left < -0.6 || word.Right > width + 0.6 || word.Y - Ascent < -3 || word.Y > height + 1))
            yield return string.Create(CultureInfo.InvariantCulture, $"{word.Words} sticks out of {width}: {word.Left} to {word.Right}");
        foreach (var (index, a) in words.Index())
        {
            foreach (var b in words.Skip(index + 1).Where(b => Overlap(a, b))) yield return $"{a.Words} lies on {b.Words}";
        }
    }

    private static bool Overlap((string Words, double Left, double Right, double Y) a, (string Words, double Left, double Right, double Y) b) =>
        a.Left + 0.2 < b.Right && b.Left + 0.2 < a.Right && a.Y - Ascent < b.Y + Descent && b.Y - Ascent < a.Y + Descent;

    private static (string Words, double Left, double Right, double Y) Of(XElement text)
    {
        var words = string.Concat(text.Nodes().OfType<XText>().Select(node => node.Value));
        var (x, y, kinds) = ((double)text.Attribute("x")!, (double)text.Attribute("y")!, ((string?)text.Attribute("class") ?? "").Split(' '));
        var width = Letters.Width(words);
        var left = x - (kinds.Contains("e") ? width : kinds.Contains("m") || kinds.Contains("count") ? width / 2 : 0);
        return (words, left, left + width, y);
    }
}
