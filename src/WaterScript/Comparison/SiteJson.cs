using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Outputs;
using WaterScript.Text;

namespace WaterScript.Comparison;

/// <summary>Writes an answer about a site as JSON, with its moments as the timetable has them.</summary>
internal sealed class SiteJson(Site site, Stream output) : IDisposable
{
    private readonly Timestamps _timestamps = new(new ZoneClock(site.TimeZone));

    /// <summary>The document.</summary>
    public JsonWriter Json { get; } = new(output, isIndented: true);

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

    /// <inheritdoc/>
    public void Dispose() => Json.Dispose();
}
