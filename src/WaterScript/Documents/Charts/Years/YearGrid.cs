using System.Text;
using WaterScript.Calendars;
using WaterScript.Documents.Charts.Drawing;
using static WaterScript.Documents.Charts.Drawing.Shapes;

namespace WaterScript.Documents.Charts.Years;

/// <summary>Where the days of a year stand: weeks beside one another and weekdays under one another, or where it is narrow the other way round.</summary>
internal sealed class YearGrid
{
    private const int DaysInWeek = 7;
    private readonly PictureSizes _sizes;

    /// <param name="year">The year.</param>
    /// <param name="sizes">The room.</param>
    public YearGrid(YearChart year, PictureSizes sizes)
    {
        _sizes = sizes;
        First = CivilDate.DaysAfterMonday(CivilDate.DayNumberOf(year.From));
        Weeks = (First + year.Days + DaysInWeek - 1) / DaysInWeek;
        Pitch = sizes.IsWide ? Math.Min(24, Math.Floor((sizes.Width - sizes.Left - RightOf(sizes)) / Weeks * 10) / 10) : NarrowPitch;
        Row = sizes.IsWide ? Math.Clamp(Pitch, 17, 22) : NarrowPitch;
    }

    private const double NarrowPitch = 15;
    private const double NarrowLeft = 64;

    /// <summary>The weekday of the first day, 0 for Monday.</summary>
    public int First { get; }

    /// <summary>How many weeks the year touches.</summary>
    public int Weeks { get; }

    /// <summary>From one week to the next.</summary>
    public double Pitch { get; }

    /// <summary>From one weekday to the next.</summary>
    public double Row { get; }

    /// <summary>The left edge of the weeks; of the weekdays where it is narrow.</summary>
    public double Left => _sizes.IsWide ? _sizes.Left : NarrowLeft;

    /// <summary>The right edge of the weeks.</summary>
    public double Right => Left + (Weeks * Pitch);

    /// <summary>What a cell measures.</summary>
    public (double Width, double Height) Cell => (Pitch - 2.5, Row - 2.5);

    /// <summary>The place of a day, from the upper left of the grid.</summary>
    public (double X, double Y) Of(int day)
    {
        var (week, weekday) = ((First + day) / DaysInWeek, (First + day) % DaysInWeek);
        return _sizes.IsWide ? (Left + (week * Pitch), weekday * Row) : (Left + (weekday * Pitch), week * Row);
    }

    /// <summary>Where a day lies along the weeks.</summary>
    public double Along(int day) => Left + ((First + day) / (double)DaysInWeek * Pitch);

    /// <summary>A stepped line where a month begins.</summary>
    /// <param name="year">The year.</param>
    /// <param name="top">The upper edge of the grid.</param>
    /// <param name="row">From one row to the next.</param>
    public string Borders(YearChart year, double top, double row)
    {
        var lines = new StringBuilder();
        foreach (var (_, from, _) in year.Months().Where(month => month.From > 0))
        {
            var (x, y) = (Of(from).X, top + (Of(from).Y / Row * row));
            lines.Append(_sizes.IsWide
                ? y > top
                    ? $"M{Number(x + Pitch)} {Number(top)}V{Number(y)}H{Number(x)}V{Number(top + (DaysInWeek * row))}"
                    : $"M{Number(x)} {Number(top)}V{Number(top + (DaysInWeek * row))}"
                : x > Left
                    ? $"M{Number(Left + (DaysInWeek * Pitch))} {Number(y)}H{Number(x)}V{Number(y + row)}H{Number(Left)}"
                    : $"M{Number(Left)} {Number(y)}H{Number(Left + (DaysInWeek * Pitch))}");
        }

        return lines.ToString();
    }

    private static double RightOf(PictureSizes sizes) => sizes.Right > 0 ? sizes.Right : 64;
}
