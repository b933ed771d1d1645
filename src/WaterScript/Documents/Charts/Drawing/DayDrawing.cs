using System.Globalization;
using WaterScript.Quantities;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts.Drawing;

/// <summary>
/// Where everything of a day is drawn, in units that are a pixel wide on a screen: marks, dates and hours on top, a lane for each
/// zone, curves, hours again, and what the sun and the clock do. Between many lanes there are hours too.
/// </summary>
internal sealed class DayDrawing
{
    /// <summary>An hour of the axis. A day with a change of the clock is shorter or longer, and its hours are not.</summary>
    public const double HourWidth = 44;

    private const double MostNameWidth = 150;
    private const double LeastNameWidth = 60;
    private const double NameGap = 16;
    private const double RightMargin = 40;
    private const double TextRow = 15;
    private const double MarkRow = 19;
    private const double MarkSize = 7;
    private const double MostMarkText = 300;
    private const double LaneHeight = 27;
    private const double LaneTextY = 11;
    private const double BarY = 15;
    private const double BarHeight = 8;
    private const double LeastBar = 1.5;
    private const double CurveHeight = 60;
    private const double CurveTextY = 18;
    private const double CurveFrameY = 24;
    private const double CurveFrameHeight = 36;
    private const double AxisGap = 6;
    private const double Headroom = 1.12;

    /// <summary>The most that lanes and curves of a strip may be high: on a sheet of A4 across there is room for it under a heading and a legend.</summary>
    private const double MostInStrip = 520;

    private const int HoursBetweenTexts = 2;
    private const int SecondsInHour = 3_600;

    private readonly List<DrawnText> _texts = [];
    private readonly List<DrawnText> _names = [];
    private readonly List<DrawnItem> _items = [];
    private readonly List<DrawnCurve> _curves = [];
    private readonly List<DrawnMark> _marks = [];
    private readonly List<(Box Box, ChartLane Lane)> _lanes = [];
    private readonly List<Box> _forbidden = [];
    private readonly List<DrawnStrip> _strips = [];

    public DayDrawing(ChartDay day, double nameWidth)
    {
        (Day, Left) = (day, nameWidth);
        var marksEnd = PlaceMarks(0);
        var y = PlaceHours(marksEnd + TextRow, withDates: true);
        var (top, fieldTop) = (0.0, y);
        foreach (var parts in Parts())
        {
            if (y > fieldTop)
            {
                y += AxisGap;
                _strips.Add(new DrawnStrip(top, fieldTop, y));
                (top, fieldTop) = (y, PlaceHours(y + TextRow, withDates: true));
                y = fieldTop;
            }

            foreach (var place in parts) y = place(y);
        }

        Bottom = y;
        y = PlaceHours(y + AxisGap, withDates: false);
        Height = PlaceNotes(y) + 2;
        _strips.Add(new DrawnStrip(top, fieldTop, Height));
    }

    /// <summary>Lanes and curves in strips of much the same height, each as what places it.</summary>
    private IEnumerable<IEnumerable<Func<double, double>>> Parts()
    {
        var parts = Day.Lanes.Select(lane => (Height: LaneHeight, Place: (Func<double, double>)(y => Place(lane, y))))
            .Concat(Day.Curves.Select(curve => (Height: CurveHeight, Place: (Func<double, double>)(y => Place(curve, y))))).ToList();
        var whole = parts.Sum(part => part.Height);
        var count = Math.Ceiling(whole / MostInStrip);
        var above = 0.0;
        return parts.GroupBy(part => Math.Floor(((above += part.Height) - (part.Height / 2)) * count / whole), part => part.Place);
    }

    /// <summary>The day.</summary>
    public ChartDay Day { get; }

    /// <summary>The left edge of the axis; left of it stand the names.</summary>
    public double Left { get; }

    /// <summary>The right edge of the axis.</summary>
    public double Right => X(Day.Until);

    /// <summary>Where names end, a little before the axis begins, so that its first hour has room.</summary>
    public double NameWidth => Left - (NameGap / 2);

    /// <summary>What the hours run through: the lanes of each strip, and the field of each curve.</summary>
    public IEnumerable<Box> Fields => _strips.Select(LanesOf).Where(lanes => lanes.Height > 0).Concat(_curves.Select(curve => curve.Frame));

    /// <summary>From the top.</summary>
    public IReadOnlyList<DrawnStrip> Strips => _strips;

    /// <summary>The lower edge of lanes and curves.</summary>
    public double Bottom { get; }

    /// <summary>Of the whole drawing.</summary>
    public double Width => Right + RightMargin;

    /// <summary>Of the whole drawing.</summary>
    public double Height { get; }

    /// <summary>The fields of the lanes.</summary>
    public IReadOnlyList<(Box Box, ChartLane Lane)> Lanes => _lanes;

    /// <summary>Where water is forbidden.</summary>
    public IReadOnlyList<Box> Forbidden => _forbidden;

    /// <summary>Passes and rows of passes.</summary>
    public IReadOnlyList<DrawnItem> Items => _items;

    /// <summary>Curves.</summary>
    public IReadOnlyList<DrawnCurve> Curves => _curves;

    /// <summary>Marks of findings.</summary>
    public IReadOnlyList<DrawnMark> Marks => _marks;

    /// <summary>Texts that stand at a moment.</summary>
    public IReadOnlyList<DrawnText> Texts => _texts;

    /// <summary>Names of lanes and curves, which stay in sight when a screen shows a part of the day.</summary>
    public IReadOnlyList<DrawnText> Names => _names;

    /// <summary>The room that the names of the zones need.</summary>
    public static double NameWidthOf(Chart chart) => Math.Clamp(
        chart.Days[0].Lanes.Select(lane => DrawnText.WidthOf(lane.Zone.DisplayName) + NameGap + 2).DefaultIfEmpty(0).Max(), LeastNameWidth, MostNameWidth);

    /// <summary>Where an instant is drawn.</summary>
    public double X(long at) => Left + ((double)(Math.Clamp(at, Day.From, Day.Until) - Day.From) / SecondsInHour * HourWidth);

    private Box LanesOf(DrawnStrip strip) => new(Left, strip.FieldTop, Right - Left, _lanes.Count(lane => strip.Has(lane.Box.Y)) * LaneHeight);

    private double PlaceMarks(double y)
    {
        var rows = new PackedRows();
        var named = new HashSet<int>();
        foreach (var mark in Day.Marks)
        {
            var heading = named.Add(mark.Finding.Number) ? $" {mark.Finding.Finding.Heading}" : "";
            var (x, text) = (X(mark.At), string.Create(CultureInfo.InvariantCulture, $"{mark.Finding.Number}{heading}"));
            var label = DrawnText.Within(0, 0, MostMarkText, text, "mark-text");
            var left = x + MarkSize + 4 + label.Right <= Width ? x + MarkSize + 4 : x - MarkSize - 4 - label.Right;
            var row = y + (rows.Place(Math.Min(left, x - MarkSize), Math.Max(left + label.Right, x + MarkSize)) * MarkRow);
            _marks.Add(new DrawnMark(mark, x, row + (MarkRow / 2)));
            _texts.Add(label with { X = left, Y = row + (MarkRow / 2) + 4 });
        }

        return y + (rows.Count * MarkRow);
    }

    private double PlaceHours(double y, bool withDates)
    {
        foreach (var hour in Day.Hours.Where(hour => hour.Hour % HoursBetweenTexts == 0))
        {
            _texts.Add(DrawnText.Around(X(hour.At), y + LaneTextY, string.Create(CultureInfo.InvariantCulture, $"{hour.Hour:00}"), "hour"));
            if (withDates && hour.Hour == 0) _texts.Add(new DrawnText(X(hour.At), y - 3, MomentWords.Date(Day.Date.PlusDays(1)), "date"));
        }

        if (withDates) _texts.Add(new DrawnText(Left, y - 3, MomentWords.Date(Day.Date), "date"));
        return y + TextRow;
    }

    private double Place(ChartLane lane, double y)
    {
        _lanes.Add((new Box(Left, y, Right - Left, LaneHeight), lane));
        _names.Add(new DrawnText(2, y + BarY + BarHeight - 1,
            TextWidth.FitName(DisplayLine.Clean(lane.Zone.DisplayName), DrawnText.Size, Left - NameGap), "name"));
        _forbidden.AddRange(lane.Forbidden.Select(band => new Box(X(band.From), y, X(band.Until) - X(band.From), LaneHeight)));
        _items.AddRange(lane.Items.Select(item => Drawn(item, y + BarY)));
        _texts.AddRange(LaneTexts.Of(lane.Items, X, Width).Select(text => new DrawnText(text.X, y + LaneTextY, text.Text, "time")));
        return y + LaneHeight;
    }

    private DrawnItem Drawn(LaneItem item, double y)
    {
        var runs = item.Runs.Where(run => run.Run.End > Day.From && run.Run.Start < Day.Until)
            .Select(run => new DrawnRun(run, BoxOf(run.Run.Start, run.Run.End, y), run.Run.Start < Day.From)).ToList();
        return new DrawnItem(item, BoxOf(item.From, item.Until, y), runs);
    }

    private Box BoxOf(long from, long until, double y) => new(X(from), y, Math.Max(LeastBar, X(until) - X(from)), BarHeight);

    private double Place(ChartCurve curve, double y)
    {
        var frame = new Box(Left, y + CurveFrameY, Right - Left, CurveFrameHeight);
        double YOf(decimal value) => frame.Bottom - ((double)(value / curve.Top) / Headroom * frame.Height);
        _curves.Add(new DrawnCurve(curve, frame, [.. curve.Corners.Select(corner => (X(corner.At), YOf(corner.Value)))],
            curve.Limit is { } limit ? YOf(limit) : null));
        var limitWords = curve.LimitWords.Length > 0 ? $"; {curve.LimitWords}" : "";
        _names.Add(DrawnText.Within(2, y + CurveTextY, Left + MostMarkText, $"{curve.Kind} of {curve.Name}: {curve.Words}{limitWords}",
            curve.Beyond.IsEmpty ? "curve-name" : "curve-name beyond-text"));
        PlaceScale(curve, YOf);
        return y + CurveHeight;
    }

    /// <summary>Nothing, the limit, and the whole of a tank; what stands too near to another one is left out.</summary>
    private void PlaceScale(ChartCurve curve, Func<decimal, double> yOf)
    {
        var last = double.MaxValue;
        foreach (var value in new[] { 0, curve.Limit ?? 0, curve.Kind == CurveKind.Level ? curve.Top : 0 }.Distinct())
        {
            if (last - yOf(value) < DrawnText.Size) continue;
            last = yOf(value);
            _texts.Add(DrawnText.Within(Right + 4, last + 4, RightMargin - 4, InUnit(value, curve.Unit), "hour"));
        }
    }

    private static string InUnit(decimal value, Unit unit)
    {
        var number = value * unit.Denominator / unit.Numerator;
        return Phrases.Number(number, number is > 0 and < 10 ? 1 : 0);
    }

    private double PlaceNotes(double y)
    {
        var rows = new PackedRows();
        foreach (var note in Day.Notes)
        {
            var width = DrawnText.WidthOf(note.Text);
            var left = Math.Clamp(X(note.At) - (width / 2), 0, Width - width);
            _texts.Add(new DrawnText(left, y + (rows.Place(left, left + width) * TextRow) + LaneTextY, note.Text, "note"));
        }

        return y + (rows.Count * TextRow);
    }
}
