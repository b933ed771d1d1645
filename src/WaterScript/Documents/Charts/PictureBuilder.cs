using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts;

/// <summary>Turns a chart into what is drawn: all words are made, all times count from noon.</summary>
internal sealed class PictureBuilder
{
    private readonly Chart _chart;
    private readonly PictureLinks _links;
    private readonly WaterFigures _figures;

    private PictureBuilder(Chart chart, PictureLinks links)
    {
        (_chart, _links) = (chart, links);
        _figures = new WaterFigures(chart.Site);
    }

    /// <summary>The picture of a chart.</summary>
    public static Picture Of(Chart chart, PictureLinks links) => Of(chart, links, panel => panel.Points.Length, Limits.ChartPoints);

    /// <summary>The picture of a chart of many nights.</summary>
    /// <param name="chart">The chart.</param>
    /// <param name="links">What its places lead to.</param>
    /// <param name="countOf">How much is written for a curve.</param>
    /// <param name="mostPoints">The most of that; beyond it there are only the curves that go beyond their limit.</param>
    public static Picture Of(Chart chart, PictureLinks links, Func<NightPanel, int> countOf, int mostPoints) =>
        new PictureBuilder(chart, links).Build(countOf, mostPoints);

    private Picture Build(Func<NightPanel, int> countOf, int mostPoints)
    {
        var alike = new AlikeZones(_chart.Site);
        ImmutableArray<Night> nights = [.. _chart.Days.Select((day, index) => alike.Folded(NightOf(day, index)))];
        if (nights.Sum(night => night.Panels.Sum(countOf)) > mostPoints)
            nights = [.. nights.Select(night => night with { Panels = [.. night.PanelsShown(hasAll: false)] })];
        ImmutableArray<PictureFinding> findings = [.. _chart.Findings.Select(each => new PictureFinding(
            (int)each.Finding.Severity, Shapes.Plain(each.Finding.Heading), ChartWords.Of(each), _links.NumberOf(each.Finding.Primary.Location)))];
        return new Picture
        {
            Zones = [.. alike.Names],
            Members = [.. alike.Members],
            Order = [.. alike.Order],
            Schedules = [.. _chart.Site.Schedules.Select(schedule => Shapes.Plain(schedule.DisplayName))],
            Places = [.. _links.Places],
            Findings = findings,
            Nights = nights,
        };
    }

    private Night NightOf(ChartDay day, int id)
    {
        var rows = new NightRows(day.From, _figures, _links.NumberOf);
        return new Night
        {
            Id = id,
            Title = ChartWords.Heading(day),
            Words = ChartWords.NightWords(_chart, id),
            Length = day.Until - day.From,
            Shifts = [.. day.Shifts.Select(shift => new NightShift(shift.At - day.From, shift.By))],
            Rows = [.. rows.Of(day.Touching)],
            Held = [.. rows.Of(day.Held)],
            HasSun = _chart.Site.Position is not null,
            Sun = [.. day.Sun.Select(note => new NightNote(note.Text[..^(note.Text.Count(letter => letter == ':') > 1 ? 3 : 0)], note.At - day.From))],
            Dark = Spans(day.Nights, day),
            Devices = [.. day.Devices.Select(device => new NightDevice(Shapes.Plain(device.Name), Rounded(device.Seconds), Spans(device.Bands, day)))],
            Forbidden = [.. day.Forbidden.Select(each => new NightForbidden(Shapes.Plain(each.Restriction), each.Zones, Spans(each.Bands, day)))],
            Findings = [.. day.Marks.Select(mark => new NightFinding(mark.Finding.Number, mark.Zone, mark.At - day.From))],
            // Where nothing is watered, flow and power are nothing all night.
            Panels = day.Touching.IsEmpty ? [] : [.. day.Curves.Select(curve => PanelOf(curve, day))],
            Figures = [.. FiguresOf(day)],
        };
    }

    private static ImmutableArray<NightSpan> Spans(IEnumerable<ChartBand> bands, ChartDay day) =>
        [.. bands.Select(band => new NightSpan(band.From - day.From, band.Until - day.From))];

    /// <summary>A length as columns show it: from an hour on to the minute.</summary>
    private static string Rounded(long seconds) => Phrases.Length(seconds >= 3600 ? (seconds + 30) / 60 * 60 : seconds);

    private IEnumerable<NightFigures> FiguresOf(ChartDay day)
    {
        var runs = day.Runs.ToLookup(run => run.Zone.Index);
        foreach (var zone in day.Touching.Select(run => run.Zone).Concat(day.Held.Select(held => held.Zone)).DistinctBy(zone => zone.Index))
        {
            var seconds = runs[zone.Index].Sum(run => run.Run.Seconds);
            var cause = day.Held.FirstOrDefault(held => held.Zone.Index == zone.Index)?.Because.Split(':')[0] ?? "";
            yield return new NightFigures(zone.Index, seconds > 0 ? Rounded(seconds) : cause,
                zone.LitresPerMinute is { } flow && seconds > 0 ? _figures.Volume(flow * seconds / 60) : "");
        }
    }

    private static NightPanel PanelOf(ChartCurve curve, ChartDay day)
    {
        var (kind, word) = curve.Kind switch
        {
            CurveKind.Flow => ("flow", "Flow of"),
            CurveKind.Level => ("level", "Level of"),
            _ => ("power", "Power of"),
        };
        return new NightPanel(kind, $"{word} {Shapes.Plain(curve.Name)}", curve.Words, curve.Limit is { } limit ? (double)limit : null, curve.LimitWords,
            kind == "level" ? "empty" : "0", (double)curve.Top, Points(curve.Corners, day, kind != "level"), Points(curve.Rushes, day, isStep: false),
            Spans(curve.Beyond, day));
    }

    /// <summary>Corners, to a thousandth: that is less than can be seen. Of steps, those at which the value changes.</summary>
    private static ImmutableArray<NightPoint> Points(IEnumerable<CurveCorner> corners, ChartDay day, bool isStep)
    {
        var points = new List<NightPoint>();
        foreach (var corner in corners)
        {
            var point = new NightPoint(corner.At - day.From, (double)Math.Round(corner.Value, 3));
            if (isStep && points.Count > 0 && points[^1].Value == point.Value) continue;
            if (isStep && points.Count > 0 && points[^1].At == point.At) points.RemoveAt(points.Count - 1);
            points.Add(point);
        }

        return [.. points];
    }
}
