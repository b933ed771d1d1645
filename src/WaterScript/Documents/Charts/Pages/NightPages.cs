using WaterScript.Documents.Charts.Drawing;

namespace WaterScript.Documents.Charts.Pages;

/// <summary>A night and what was drawn of it; nothing for one without water.</summary>
internal sealed record DrawnNight(Night Night, string Svg, double Height);

/// <summary>Draws the nights of a picture under one axis; hours stand over the first that has any water.</summary>
internal static class NightPages
{
    /// <summary>The nights, in order. Of several only what goes beyond its limit is drawn under the lanes, so that they stand close to one another.</summary>
    public static IEnumerable<DrawnNight> Draw(Picture picture, PictureSizes sizes) => Draw(picture, sizes, picture.IsOneNight);

    /// <summary>The nights, in order.</summary>
    /// <param name="picture">The picture.</param>
    /// <param name="sizes">The room.</param>
    /// <param name="hasPanels">Whether devices and all curves are drawn under the lanes.</param>
    public static IEnumerable<DrawnNight> Draw(Picture picture, PictureSizes sizes, bool hasPanels)
    {
        var axis = picture.AxisFor(sizes);
        var isFirst = true;
        foreach (var night in picture.Nights)
        {
            if (night.IsDry)
            {
                yield return new DrawnNight(night, "", 0);
                continue;
            }

            var (svg, height) = NightDrawing.Draw(picture, night, axis, sizes, new NightOptions(isFirst, isFirst, hasPanels));
            isFirst = false;
            yield return new DrawnNight(night, svg, height);
        }
    }
}
