namespace WaterScript.Documents.Charts.Drawing;

/// <summary>An upright rectangle.</summary>
internal readonly record struct Box(double X, double Y, double Width, double Height)
{
    /// <summary>Its right edge.</summary>
    public double Right => X + Width;

    /// <summary>Its lower edge.</summary>
    public double Bottom => Y + Height;
}

/// <summary>What a drawing shows of a lane's item.</summary>
/// <param name="Item">The item.</param>
/// <param name="Whole">From the beginning of its first run to the end of its last.</param>
/// <param name="Runs">Its runs, each as wide as can be seen.</param>
internal sealed record DrawnItem(LaneItem Item, Box Whole, IReadOnlyList<DrawnRun> Runs);

/// <summary>A run as it is drawn.</summary>
/// <param name="Run">The run.</param>
/// <param name="Box">Where.</param>
/// <param name="IsRest">Whether it is the rest of one that begins on the day before.</param>
internal readonly record struct DrawnRun(ChartRun Run, Box Box, bool IsRest);

/// <summary>A curve as it is drawn.</summary>
/// <param name="Curve">The curve.</param>
/// <param name="Frame">Its field.</param>
/// <param name="Points">Its corners.</param>
/// <param name="LimitY">Where the limit is drawn, or null.</param>
internal sealed record DrawnCurve(ChartCurve Curve, Box Frame, IReadOnlyList<(double X, double Y)> Points, double? LimitY);

/// <summary>The mark of a finding as it is drawn.</summary>
/// <param name="Mark">The mark.</param>
/// <param name="X">The middle of its sign.</param>
/// <param name="Y">The middle of its sign.</param>
internal sealed record DrawnMark(ChartMark Mark, double X, double Y);
