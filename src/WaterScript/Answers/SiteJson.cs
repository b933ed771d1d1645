using WaterScript.Calendars;
using WaterScript.Documents.Reports;
using WaterScript.Documents.Writers;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Answers;

/// <summary>Writes an answer about a site as JSON, with its moments as the timetable has them.</summary>
internal sealed class SiteJson
{
    /// <summary>Of all answers; it goes up when a program that reads one has to read it otherwise.</summary>
    private const int Version = 1;

    private readonly Timestamps _timestamps;

    private SiteJson(Site site, JsonWriter json) => (_timestamps, Json) = (new Timestamps(new ZoneClock(site.TimeZone)), json);

    /// <summary>The document.</summary>
    public JsonWriter Json { get; }

    /// <summary>Writes an answer, which begins with what it is and whose.</summary>
    /// <param name="kind">What it is; the document has its version under this key.</param>
    /// <param name="site">The site.</param>
    /// <param name="output">Stays open.</param>
    /// <param name="write">Writes the rest.</param>
    public static void Write(string kind, Site site, Stream output, Action<SiteJson> write)
    {
        using var json = new JsonWriter(output, isIndented: true);
        json.Map(() =>
        {
            json.Entry(kind, Version);
            json.Entry("site", site.Name);
            write(new SiteJson(site, json));
        });
    }

    /// <summary>An instant in Unix seconds, with its offset; nothing for null.</summary>
    public void Moment(string key, long? instant)
    {
        Span<byte> into = stackalloc byte[Timestamps.Longest];
        if (instant is { } second) Json.Entry(key, _timestamps.Instant(second, into));
    }

    /// <summary>A date in days since 1970-01-01.</summary>
    public void Date(string key, int day)
    {
        Span<byte> into = stackalloc byte[Timestamps.DateLength];
        Json.Entry(key, _timestamps.Date(day, into));
    }

    /// <summary>A place in a source.</summary>
    public void Place(string key, Location place) => Json.Map(key, () => PlaceFields.Write(Json, place));

    /// <summary>A list of maps.</summary>
    public void Maps<T>(string key, IEnumerable<T> items, Action<T> write) => Json.List(key, items, item => Json.Map(() => write(item)));

    /// <summary>A yes or no.</summary>
    public void Flag(string key, bool value)
    {
        Json.Key(key);
        Json.Flag(value);
    }
}
