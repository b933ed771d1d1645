namespace WaterScript.Documents.Charts.Drawing;

/// <summary>What the columns of a picture measure, in pixels.</summary>
/// <param name="Width">Of all of it.</param>
internal sealed record PictureSizes(double Width)
{
    /// <summary>Whether names stand beside their lanes, not over them.</summary>
    public bool IsWide => Width >= 700;

    /// <summary>The column of names; 0 where they stand over their lanes.</summary>
    public double Left => IsWide ? Width >= 1000 ? 172 : 150 : 0;

    /// <summary>The columns of figures; 0 where there is no room for them.</summary>
    public double Right => Width >= 820 ? 168 : 0;

    /// <summary>What stands for hours that are folded away.</summary>
    public double Fold => IsWide ? 30 : 18;

    /// <summary>What is left for the time.</summary>
    public double Room => Width - Left - (Right > 0 ? Right + 4 : IsWide ? 64 : 0);
}
