using System.Globalization;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Text;

namespace WaterScript.Documents.Charts.Pages;

/// <summary>The files of a site in a page, a line of text for each of theirs; of very long ones only what is referred to, and the lines around it.</summary>
internal static class SourceView
{
    private const int MostLetters = 300_000;
    private const int Around = 3;

    /// <summary>Writes them.</summary>
    public static void Write(MarkupWriter markup, PictureLinks links)
    {
        var isLong = links.Files.Sum(file => (long)file.Text.Length) > MostLetters;
        foreach (var (index, file) in links.Files.Index())
        {
            var lines = isLong ? LinesAround(links.Places.Where(place => place.File == index), file) : Enumerable.Range(1, file.LineCount);
            var path = DisplayLine.CleanLine(file.Path);
            markup.Open("details", ("class", "file"))
                .Element("summary", string.Create(CultureInfo.InvariantCulture, $"{path}, {file.LineCount} lines"))
                .Open("div", ("class", "source"), ("tabindex", "0"), ("role", "group"), ("aria-label", path));
            foreach (var line in lines) WriteLine(markup, file, index, line);
            markup.Close().Close();
        }
    }

    private static void WriteLine(MarkupWriter markup, SourceText file, int index, int line) => markup
        .Open("div", ("id", PictureLinks.IdOf(index, line)))
        .Element("b", line.ToString(CultureInfo.InvariantCulture))
        .Element("span", file.Slice(file.LineSpan(line)) is { Length: > 0 } text ? DisplayLine.CleanLine(text) : " ")
        .Close();

    private static IEnumerable<int> LinesAround(IEnumerable<PicturePlace> places, SourceText file) => places
        .SelectMany(place => Enumerable.Range(place.Line - Around, (2 * Around) + 1))
        .Where(line => line >= 1 && line <= file.LineCount)
        .Distinct().Order();
}
