using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Documents.Writers;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Documents.Descriptions;

/// <summary>When the sun rises and sets, date by date, as starts and restrictions count it.</summary>
internal static class SunDescription
{
    /// <summary>Writes the list; nothing where the place is not known.</summary>
    public static void Write(Site site, Horizon horizon, DocumentWriter writer)
    {
        if (site.Position is not { } position) return;
        var clock = new ZoneClock(site.TimeZone);
        var (sun, timestamps) = (SunTimes.Of(position, clock), new Timestamps(clock));
        var (from, days) = (CivilDate.DayNumberOf(horizon.From), Period.DaysBetween(horizon.From, horizon.Until));
        var left = Math.Max(0, days - Limits.SunDays);
        writer.List("sun", Enumerable.Range(from, days - left), WriteDay);
        writer.Entry("sun_days_left_out", left > 0 ? left : null);

        void WriteDay(int day)
        {
            Span<byte> date = stackalloc byte[Timestamps.DateLength];
            writer.StartMap(Layout.OneLine);
            writer.Entry("day", timestamps.Date(day, date));
            WriteEvent("sunrise", sun.EventOn(day, SunEvent.Sunrise));
            WriteEvent("sunset", sun.EventOn(day, SunEvent.Sunset));
            writer.EndMap();
        }

        void WriteEvent(string key, long? at)
        {
            Span<byte> buffer = stackalloc byte[Timestamps.Longest];
            if (at is { } instant) writer.Entry(key, timestamps.Instant(instant, buffer));
        }
    }
}
