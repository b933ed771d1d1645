namespace WaterScript.Documents.Charts.Drawing;

/// <summary>
/// A part of a day's drawing, over its whole width, with hours on top. Days of many zones have several, so that hours are never far
/// from a lane and a sheet of paper ends between two of them.
/// </summary>
/// <param name="Top">Its upper edge.</param>
/// <param name="FieldTop">Where its hours end and lanes or curves begin.</param>
/// <param name="Bottom">Its lower edge.</param>
internal sealed record DrawnStrip(double Top, double FieldTop, double Bottom)
{
    /// <summary>Its height.</summary>
    public double Height => Bottom - Top;

    /// <summary>Whether something at a height is in it.</summary>
    public bool Has(double y) => y >= Top && y < Bottom;
}
