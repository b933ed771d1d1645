using System.Globalization;
using System.Text.Json;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Documents.Charts.Pages;
using WaterScript.Tests.Cli;
using Xunit;

namespace WaterScript.Tests.Documents.Charts;

/// <summary>The script of a page draws what the program draws, to the letter, at any width and zoom.</summary>
public sealed class ScriptTests : Workshop
{
    /// <summary>Width, zoom and pixels moved: wide and narrow, whole, some, and down to seconds.</summary>
    private static readonly (double Width, double Zoom, double Pan)[] Sizes =
        [(1504, 1, 0), (1044, 1, 0), (1044, 4.3, 700), (1044, 90, 30000), (1044, 2000, 640000), (760, 1, 0), (760, 3, 250), (336, 1, 0), (336, 6, 500)];

    [BrowserTheory]
    [MemberData(nameof(ChartSites.Names), MemberType = typeof(ChartSites))]
    public void It_draws_as_the_program_does(string name)
    {
        var picture = Charts.PictureOf(ChartSites.Of(name));
        var sizes = string.Join(", ", Sizes.Select(size => string.Create(CultureInfo.InvariantCulture, $"[{size.Width}, {size.Zoom}, {size.Pan}]")));
        var script = Write("script.js", PageParts.Script("layout", "ground", "labels", "night", "page"));
        var data = Write("data.json", $$"""{ "picture": {{PageData.Of(picture)}}, "sizes": [{{sizes}}] }""");

        var (output, error, status) = Browser.Run("draw.mjs", [script, data]);

        Assert.Equal(("", 0), (error, status));
        Assert.Equal(Sizes.SelectMany(size => DrawnAt(picture, size)), JsonSerializer.Deserialize<string[]>(output)!);
    }

    private static IEnumerable<string> DrawnAt(Picture picture, (double Width, double Zoom, double Pan) at)
    {
        var sizes = new PictureSizes(at.Width);
        var axis = picture.AxisFor(sizes, at.Zoom, at.Pan);
        return picture.Nights.Where(night => !night.IsDry).Select((night, index) => NightDrawing.Draw(picture, night, axis, sizes,
            new NightOptions(index == 0, index == 0, picture.Nights.Length == 1, at.Zoom > 1 ? (0.25, 0.5) : null)).Svg);
    }
}
