using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Unicode;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Documents.Charts.Years;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts.Pages;

/// <summary>Writes a year as a page: what the year comes to, and by a click the nights of a day.</summary>
internal sealed class YearPage
{
    private readonly YearChart _year;
    private readonly YearWords _words;
    private readonly PictureLinks _links;
    private readonly Picture? _nights;
    private readonly MarkupWriter _markup = new();

    private YearPage(YearChart year, ChartOptions options)
    {
        (_year, _words, _links) = (year, new YearWords(year), new PictureLinks(year.Site, options));
        _links.AddAll();
        if (year.Nights is not { Days.IsEmpty: false } nights) return;
        var picture = PictureBuilder.Of(nights, _links, panel => Repeats.CountOf(panel.Points) + Repeats.CountOf(panel.Rushes), Limits.YearPoints);
        if (picture.Nights.Sum(night => night.Rows.Length + night.Held.Length) <= Limits.YearRows) _nights = picture;
    }

    /// <summary>Writes it, in UTF-8.</summary>
    public static void Write(YearChart year, ChartOptions options, Stream stream)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(stream);
        new YearPage(year, options).Write(stream);
    }

    private void Write(Stream stream)
    {
        _markup.Raw("<!DOCTYPE html>\n").Open("html", ("lang", "en"));
        PageParts.WriteHead(_markup, Shapes.Plain(_year.Site.DisplayName), PageStyle.Text, PageParts.YearScript);
        _markup.Open("body").Open("main").Element("h1", _year.Site.DisplayName);
        _markup.Open("p", ("class", "lead")).Element("b", _words.Dates).Text(_words.Rest).Close();
        WriteTools();
        _markup.Raw($"<svg class=\"patterns sheet\" aria-hidden=\"true\">{PictureStyle.Patterns}</svg>\n");
        _markup.Open("div", ("id", "year"), ("class", "picture"), ("tabindex", "0"), ("role", "application"),
            ("aria-label", "Water of a year. Left and right arrows go from week to week, up and down from day to day, Enter opens the nights of a day."));
        Variants.Write(_markup, sizes => YearDrawing.Draw(_year, sizes).Svg);
        _markup.Close();
        YearLegend.Write(_markup, _year);
        foreach (var note in _year.Notes.Concat(_year.Changes)) _markup.Element("p", note.Words, ("class", "dry narrow"));
        WriteOpened();
        WriteGround();
        WriteTanks();
        WriteTable();
        SourceView.Write(_markup, _links);
        _markup.Close();
        PageParts.WriteFoot(_markup, "Point at a day, or step with the arrow keys; Enter or a click opens its nights.");
        _markup.Open("script", ("type", "application/json"), ("id", "year-data")).Raw(Data()).Close();
        _markup.Open("script").Raw(PageParts.YearScript).Close();
        _markup.Close().Close();
        _markup.WriteTo(stream);
    }

    private void WriteTools()
    {
        _markup.Open("div", ("class", "tools"), ("role", "toolbar"), ("aria-label", "Days and scale"));
        _markup.Element("button", "← day", ("type", "button"), ("data-do", "earlier-day"), ("aria-label", "earlier day"));
        _markup.Element("button", "day →", ("type", "button"), ("data-do", "later-day"), ("aria-label", "later day"));
        _markup.Element("button", "open", ("type", "button"), ("data-do", "open"), ("aria-label", "open the nights of the day"));
        _markup.Element("button", "zones on one scale", ("type", "button"), ("data-do", "scale"), ("aria-pressed", "false"));
        _markup.Close();
    }

    /// <summary>Where the script shows the nights of a day that is opened.</summary>
    private void WriteOpened()
    {
        _markup.Open("section", ("id", "opened"), ("aria-label", "The nights of a day"), ("hidden", "hidden")).Element("h2", "");
        _markup.Open("div", ("class", "tools"), ("role", "toolbar"), ("aria-label", "Move and zoom"));
        _markup.Element("button", "← run", ("type", "button"), ("data-do", "earlier"), ("aria-label", "earlier run"));
        _markup.Element("button", "run →", ("type", "button"), ("data-do", "later"), ("aria-label", "later run"));
        _markup.Element("button", "+", ("type", "button"), ("data-do", "in"), ("aria-label", "zoom in"));
        _markup.Element("button", "−", ("type", "button"), ("data-do", "out"), ("aria-label", "zoom out"));
        _markup.Element("button", "whole nights", ("type", "button"), ("data-do", "all"));
        _markup.Element("button", "flow and power", ("type", "button"), ("data-do", "panels"), ("aria-pressed", "false"));
        _markup.Close();
        _markup.Open("div", ("class", "picture"), ("tabindex", "0"), ("role", "application"),
            ("aria-label", "The nights of a day. Arrow keys go from run to run, plus and minus zoom, Enter goes to the line.")).Close();
        Legend.WriteAll(_markup, "");
        _markup.Open("ol", ("class", "findings")).Close().Close();
    }

    /// <summary>Water in the root zone, where climate, soil and plants say what it is.</summary>
    private void WriteGround()
    {
        var grounds = GroundYear.Of(_year).ToList();
        if (grounds.Count == 0) return;
        _markup.Open("section", ("aria-labelledby", "ground")).Element("h2", "Water in the root zone", ("id", "ground"));
        var unknown = GroundYear.Unknown(_year, grounds).Select(zone => zone.DisplayName).ToList();
        var rest = unknown.Count == 0 ? "" : $" Not drawn, for lack of soil, plants or application rate: {Phrases.Names(unknown)}.";
        const string weather = "In the mean weather of each month; the ground is full at the start. A real year is wetter and drier by turns.";
        _markup.Element("p", weather + rest, ("class", "dry"));
        Variants.Write(_markup, sizes => GroundDrawing.Draw(_year, grounds, sizes));
        Legend.Write(_markup, YearLegend.OfGround(grounds));
        _markup.Close();
    }

    /// <summary>What tanks hold, where it can be followed.</summary>
    private void WriteTanks()
    {
        var followed = _year.Tanks.Select(tank => tank.Supply).ToHashSet();
        var unknown = _year.Site.Supplies.Where(supply => supply.Tank is not null && !followed.Contains(supply)).Select(supply => supply.DisplayName).ToList();
        if (followed.Count + unknown.Count == 0) return;
        _markup.Open("section", ("aria-labelledby", "tanks")).Element("h2", "What tanks hold", ("id", "tanks"));
        if (followed.Count == 0)
        {
            _markup.Element("p", $"It is not known what flows in: {Phrases.Names(unknown)}.", ("class", "dry")).Close();
            return;
        }

        var start = followed.Any(supply => supply.ContainsOn is not null)
            ? "Full at the start, and as read on the date that the file says."
            : "Full at the start.";
        var rain = followed.Any(supply => supply.CatchmentArea is not null)
            ? " Rain comes evenly through each month; a real year is wetter and drier by turns."
            : "";
        var rest = unknown.Count == 0 ? "" : $" Not drawn, as it is not known what flows in: {Phrases.Names(unknown)}.";
        _markup.Element("p", start + rain + rest, ("class", "dry"));
        Variants.Write(_markup, sizes => TankDrawing.Draw(_year, sizes));
        Legend.Write(_markup, YearLegend.OfTanks(_year.Tanks));
        _markup.Close();
    }

    private void WriteTable()
    {
        var months = _year.Months().ToList();
        _markup.Open("details").Element("summary", "As a table: water by zone and month").Open("div", ("class", "wide"), ("tabindex", "0"), ("role", "group"),
            ("aria-label", "Water by zone and month"));
        _markup.Open("table").Element("caption", $"{_words.Unit}, {_words.Dates}").Open("thead").Open("tr").Element("th", "zone", ("scope", "col"));
        foreach (var (month, from, _) in months)
        {
            var name = string.Create(CultureInfo.InvariantCulture, $"{Phrases.Month(month.Month)[..3]} {_year.DateOf(from).Year}");
            _markup.Element("th", name, ("scope", "col"), ("class", "number"));
        }

        _markup.Element("th", "year", ("scope", "col"), ("class", "number")).Close().Close().Open("tbody");
        foreach (var zone in _year.Site.Zones.Where(zone => !zone.IsSpare))
        {
            _markup.Open("tr").Element("td", zone.DisplayName);
            foreach (var (_, from, until) in months) _markup.Element("td", _words.Column(zone, _year.SecondsOf(zone, from, until)), ("class", "number"));
            _markup.Element("td", _words.Column(zone, _year.SecondsOf(zone, 0, _year.Days)), ("class", "number")).Close();
        }

        _markup.Open("tr").Element("td", "all");
        foreach (var (_, from, until) in months) _markup.Element("td", _words.Column(_words.Amount(from, until)), ("class", "number"));
        _markup.Element("td", _words.Column(_words.Amount(0, _year.Days)), ("class", "number")).Close();
        _markup.Close().Close().Close().Close();
    }

    /// <summary>Each day in words and with its nights, then the nights.</summary>
    private string Data()
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Encoder = JavaScriptEncoder.Create(UnicodeRanges.All) }))
        {
            json.WriteStartObject();
            json.WriteStartArray("days");
            var nights = NightsOfDays();
            for (var day = 0; day < _year.Days; day++)
            {
                var (words, zones) = _words.Day(day);
                json.WriteStartArray();
                json.WriteStringValue(MomentWords.Date(_year.DateOf(day)));
                json.WriteStringValue(words);
                json.WriteStringValue(zones);
                json.WriteStartArray();
                foreach (var night in nights[day]) json.WriteNumberValue(night);
                json.WriteEndArray();
                json.WriteEndArray();
            }

            json.WriteEndArray();
            json.WritePropertyName("picture");
            if (_nights is null) json.WriteNullValue();
            else json.WriteRawValue(PageData.Of(_nights));
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    /// <summary>For each day the nights in which its waterings are, or would be.</summary>
    private ILookup<int, int> NightsOfDays()
    {
        if (_nights is null) return Enumerable.Empty<int>().ToLookup(day => day);
        var first = CivilDate.DayNumberOf(_year.From);
        // What surrounds the year is in its first and its last night, but not in its days.
        return _year.Nights!.Days.Index()
            .SelectMany(night => night.Item.Runs.Select(run => run.Run.Day).Concat(night.Item.Held.Select(held => held.Day))
                .Select(day => (Day: day - first, Night: night.Index)))
            .Where(each => each.Day >= 0 && each.Day < _year.Days).Distinct().ToLookup(each => each.Day, each => each.Night);
    }
}
