using System.Text;
using WaterScript.Calendars;
using WaterScript.Documents.Writers;
using WaterScript.Model;

namespace WaterScript.Answers;

/// <summary>Moments of a site as the timetable has them, for programs.</summary>
internal sealed class SiteMoments(Site site)
{
    private readonly Timestamps _timestamps = new(new ZoneClock(site.TimeZone));

    /// <summary>An instant in Unix seconds, with its offset.</summary>
    public string At(long instant)
    {
        Span<byte> into = stackalloc byte[Timestamps.Longest];
        return Encoding.ASCII.GetString(_timestamps.Instant(instant, into));
    }

    /// <summary>The same; null for null.</summary>
    public string? At(long? instant) => instant is { } second ? At(second) : null;

    /// <summary>A date in days since 1970-01-01.</summary>
    public string Date(int day)
    {
        Span<byte> into = stackalloc byte[Timestamps.DateLength];
        return Encoding.ASCII.GetString(_timestamps.Date(day, into));
    }
}
