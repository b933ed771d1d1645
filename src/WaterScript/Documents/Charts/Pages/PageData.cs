using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Unicode;
using WaterScript.Documents.Charts.Drawing;

namespace WaterScript.Documents.Charts.Pages;

/// <summary>What a page's script draws, as JSON that cannot end the element it stands in: <c>&lt;</c> is escaped.</summary>
internal static class PageData
{
    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.Create(UnicodeRanges.All) };

    /// <summary>A picture.</summary>
    public static string Of(Picture picture)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Options))
        {
            json.WriteStartObject();
            Texts(json, "zones", picture.Zones);
            json.WritePropertyName("order");
            Row(json, [.. picture.Order.Select(place => (object)place)]);
            Texts(json, "schedules", picture.Schedules);
            List(json, "places", picture.Places, place => Row(json, [place.Line, place.Href, PictureLinks.IdOf(place.File, place.Line), .. MarkOf(place)]));
            List(json, "findings", picture.Findings, finding => Row(json, finding.Severity, finding.Words, finding.Place, finding.When));
            List(json, "nights", picture.Nights, night => WriteNight(json, night));
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static object[] MarkOf(PicturePlace place) => place.Mark is { } mark ? [mark] : [];

    private static void WriteNight(Utf8JsonWriter json, Night night)
    {
        json.WriteStartObject();
        json.WriteNumber("id", night.Id);
        json.WriteString("title", night.Title);
        json.WriteString("words", night.Words);
        json.WriteNumber("length", night.Length);
        json.WriteBoolean("hasSun", night.HasSun);
        List(json, "shifts", night.Shifts, shift => Row(json, shift.At, shift.By));
        List(json, "rows", night.Rows, row => WriteRow(json, row));
        List(json, "held", night.Held, row => WriteRow(json, row));
        List(json, "sun", night.Sun, note => Row(json, note.Words, note.At));
        Spans(json, "dark", night.Dark);
        List(json, "devices", night.Devices, device => Array(json, () =>
        {
            json.WriteStringValue(device.Name);
            json.WriteStringValue(device.Total);
            Repeats.Write(json, [.. device.Spans.Select(span => new NightPoint(span.From, span.Until - span.From))]);
        }));
        List(json, "forbidden", night.Forbidden, forbidden => Array(json, () =>
        {
            json.WriteStringValue(forbidden.Name);
            Row(json, [.. forbidden.Zones.Select(zone => (object)zone)]);
            Spans(json, null, forbidden.Spans);
        }));
        List(json, "findings", night.Findings, finding => Row(json, finding.Number, finding.Zone, finding.At));
        List(json, "panels", night.Panels, panel => WritePanel(json, panel));
        json.WriteStartObject("figures");
        foreach (var each in night.Figures)
        {
            json.WritePropertyName(each.Zone.ToString(CultureInfo.InvariantCulture));
            Row(json, each.Time, each.Water);
        }

        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static void WriteRow(Utf8JsonWriter json, NightRow row) =>
        Row(json, row.Zone, row.Start, row.Length, row.Schedule, row.Pass, row.Place, row.Step, row.Every, row.Times, row.Water);

    private static void WritePanel(Utf8JsonWriter json, NightPanel panel) => Array(json, () =>
    {
        json.WriteStringValue(panel.Kind);
        json.WriteStringValue(panel.Name);
        json.WriteStringValue(panel.Note);
        if (panel.Limit is { } limit) json.WriteNumberValue(limit);
        else json.WriteNullValue();
        json.WriteStringValue(panel.LimitWords);
        json.WriteStringValue(panel.Zero);
        json.WriteNumberValue(panel.Greatest);
        Repeats.Write(json, panel.Points);
        Repeats.Write(json, panel.Rushes);
        Repeats.Write(json, [.. panel.Beyond.Select(span => new NightPoint(span.From, span.Until - span.From))]);
    });

    private static void Spans(Utf8JsonWriter json, string? name, IEnumerable<NightSpan> spans) =>
        List(json, name, spans, span => Row(json, span.From, span.Until));

    private static void Texts(Utf8JsonWriter json, string name, IEnumerable<string> texts) => List(json, name, texts, json.WriteStringValue);

    private static void List<T>(Utf8JsonWriter json, string? name, IEnumerable<T> items, Action<T> write)
    {
        if (name is not null) json.WritePropertyName(name);
        Array(json, () =>
        {
            foreach (var item in items) write(item);
        });
    }

    private static void Array(Utf8JsonWriter json, Action write)
    {
        json.WriteStartArray();
        write();
        json.WriteEndArray();
    }

    private static void Row(Utf8JsonWriter json, params ReadOnlySpan<object> values)
    {
        json.WriteStartArray();
        foreach (var value in values)
        {
            if (value is string text) json.WriteStringValue(text);
            else if (value is double number) json.WriteNumberValue(number);
            else json.WriteNumberValue(Convert.ToInt64(value, CultureInfo.InvariantCulture));
        }

        json.WriteEndArray();
    }
}
