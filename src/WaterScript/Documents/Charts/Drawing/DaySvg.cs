using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts.Drawing;

/// <summary>Writes a strip of a day's drawing as SVG, from what lies at the back to what lies in front.</summary>
/// <param name="markup">Where to.</param>
/// <param name="drawing">The day.</param>
/// <param name="strip">The strip of it.</param>
internal sealed class DaySvg(MarkupWriter markup, DayDrawing drawing, DrawnStrip strip)
{
    private const double SignSize = 7;
    private const double PassTick = 3;

    /// <summary>Writes all of it.</summary>
    public void Write()
    {
        WriteGround();
        foreach (var item in drawing.Items.Where(item => strip.Has(item.Whole.Y))) Write(item);
        foreach (var curve in drawing.Curves.Where(curve => strip.Has(curve.Frame.Y))) Write(curve);
        foreach (var mark in drawing.Marks) WriteLine(mark);
        foreach (var text in drawing.Texts.Where(text => strip.Has(text.Y))) Write(text);
        foreach (var mark in drawing.Marks.Where(mark => strip.Has(mark.Y))) Write(mark);
        WriteNames();
    }

    private void WriteGround()
    {
        foreach (var field in drawing.Fields.Where(field => strip.Has(field.Y)))
        {
            foreach (var night in drawing.Day.Nights)
                Rect(field with { X = drawing.X(night.From), Width = drawing.X(night.Until) - drawing.X(night.From) }, "night");
            foreach (var hour in drawing.Day.Hours) Line(drawing.X(hour.At), field.Y, drawing.X(hour.At), field.Bottom, hour.Hour == 0 ? "midnight" : "grid");
            Rect(field, "frame");
        }

        foreach (var (box, _) in drawing.Lanes.Where(lane => strip.Has(lane.Box.Y)).SkipLast(1)) Line(box.X, box.Bottom, box.Right, box.Bottom, "grid");
        foreach (var forbidden in drawing.Forbidden.Where(box => strip.Has(box.Y))) Filled(forbidden, "forbidden");
    }

    private void Write(DrawnItem item)
    {
        var whole = item.Whole;
        if (item.Item.IsRow)
        {
            markup.Open("g");
            markup.Element("title", RowWords(item.Item));
            markup.Empty("rect", [.. Sides(whole), ("class", "row"), ("fill", "url(#passes)")]);
            markup.Close();
        }
        else
        {
            var middle = whole.Y + (whole.Height / 2);
            if (item.Runs.Count > 1) Line(whole.X, middle, whole.Right, middle, "cycles");
            if (!item.Runs[0].IsRest) Line(whole.X, whole.Y - PassTick, whole.X, whole.Bottom + PassTick, "cycles");
        }

        foreach (var run in item.Runs) Write(run);
    }

    private static string RowWords(LaneItem row)
    {
        var (first, last) = (row.Runs[0], row.Runs[^1]);
        return $"{first.Zone.DisplayName}: every {Phrases.Length(row.Every)} {first.Clock}–{last.Clock}, {Number(row.Passes)} passes";
    }

    /// <summary>The rest of a run that begins on the day before is no run of its own.</summary>
    private void Write(in DrawnRun drawn)
    {
        var run = drawn.Run;
        if (drawn.IsRest) markup.Open("g", ("class", "run rest"));
        else markup.Open("g", ("class", "run"), ("data-run", Number(run.Number)), ("role", "img"), ("tabindex", "-1"));
        markup.Element("title", drawn.IsRest ? $"{run.Words}, begun the day before" : run.Words);
        markup.Empty("rect", Sides(drawn.Box));
        markup.Close();
    }

    private void Write(DrawnCurve drawn)
    {
        var frame = drawn.Frame;
        var points = string.Join(' ', drawn.Points.Select(point => $"{MarkupWriter.Number(point.X)},{MarkupWriter.Number(point.Y)}"));
        markup.Empty("polygon", ("class", "under"),
            ("points", $"{MarkupWriter.Number(frame.X)},{MarkupWriter.Number(frame.Bottom)} {points} " +
            $"{MarkupWriter.Number(frame.Right)},{MarkupWriter.Number(frame.Bottom)}"));
        foreach (var beyond in drawn.Curve.Beyond)
            Filled(new Box(drawing.X(beyond.From), frame.Y, Math.Max(2, drawing.X(beyond.Until) - drawing.X(beyond.From)), frame.Height), "beyond");
        markup.Empty("polyline", ("class", "curve"), ("points", points));
        if (drawn.LimitY is { } limit) Line(frame.X, limit, frame.Right, limit, "limit");
    }

    private void WriteLine(DrawnMark mark) =>
        Line(mark.X, strip.Has(mark.Y) ? mark.Y + SignSize : strip.FieldTop, mark.X, Math.Min(strip.Bottom, drawing.Bottom), "mark-line");

    /// <summary>A triangle for an error, a square on its corner for a warning, a circle for advice, each with its own sign.</summary>
    private void Write(DrawnMark drawn)
    {
        var finding = drawn.Mark.Finding.Finding;
        markup.Open("g", ("class", "mark"), ("role", "img"));
        markup.Element("title", $"{FindingSummary.WordOf(finding.Severity)} {Number(drawn.Mark.Finding.Number)}: {finding.Heading}");
        WriteSign(markup, finding.Severity, drawn.X, drawn.Y);
        markup.Close();
    }

    /// <summary>The sign of a severity.</summary>
    public static void WriteSign(MarkupWriter markup, Severity severity, double x, double y)
    {
        string Points(params (double X, double Y)[] corners) =>
            string.Join(' ', corners.Select(corner => $"{MarkupWriter.Number(x + corner.X)},{MarkupWriter.Number(y + corner.Y)}"));
        if (severity == Severity.Error)
            markup.Empty("polygon", ("class", "sign"), ("points", Points((0, -SignSize), (SignSize, SignSize - 1), (-SignSize, SignSize - 1))));
        else if (severity == Severity.Warning)
            markup.Empty("polygon", ("class", "sign"), ("points", Points((0, -SignSize), (SignSize, 0), (0, SignSize), (-SignSize, 0))));
        else markup.Empty("circle", ("class", "sign"), ("cx", MarkupWriter.Number(x)), ("cy", MarkupWriter.Number(y)),
            ("r", MarkupWriter.Number(SignSize - 1)));
        var (stroke, dot) = severity == Severity.Advice ? (new Box(x - 0.8, y - 0.5, 1.6, 4), y - 3.2) : (new Box(x - 0.8, y - 3.2, 1.6, 5), y + 3);
        markup.Empty("rect", [.. Sides(stroke), ("class", "sign-ink")]);
        markup.Empty("rect", [.. Sides(stroke with { Y = dot, Height = 1.6 }), ("class", "sign-ink")]);
    }

    /// <summary>Names lie on paper of their own, so that they can stay in sight while the day moves under them.</summary>
    private void WriteNames()
    {
        markup.Open("g", ("class", "names"));
        markup.Empty("rect", ("class", "paper"), ("x", "0"), ("y", MarkupWriter.Number(strip.Top)), ("width", MarkupWriter.Number(drawing.NameWidth)),
            ("height", MarkupWriter.Number(strip.Height)));
        foreach (var name in drawing.Names.Where(name => strip.Has(name.Y))) Write(name);
        markup.Close();
    }

    private void Write(DrawnText text) =>
        markup.Element("text", text.Content, ("class", text.Class), ("x", MarkupWriter.Number(text.X)), ("y", MarkupWriter.Number(text.Y)));

    private void Line(double x1, double y1, double x2, double y2, string style) =>
        markup.Empty("path", ("class", style),
            ("d", $"M{MarkupWriter.Number(x1)} {MarkupWriter.Number(y1)}L{MarkupWriter.Number(x2)} {MarkupWriter.Number(y2)}"));

    private void Rect(Box box, string style) => markup.Empty("rect", [.. Sides(box), ("class", style)]);

    private void Filled(Box box, string pattern) => markup.Empty("rect", [.. Sides(box), ("fill", $"url(#{pattern})")]);

    private static (string Name, string Value)[] Sides(Box box) =>
    [
        ("x", MarkupWriter.Number(box.X)), ("y", MarkupWriter.Number(box.Y)), ("width", MarkupWriter.Number(box.Width)),
            ("height", MarkupWriter.Number(box.Height)),
    ];

    private static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);
}
