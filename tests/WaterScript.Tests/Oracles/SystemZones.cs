using NodaTime;
using WaterScript.Timetables;

namespace WaterScript.Tests.Oracles;

/// <summary>The zone data of the system that the tests run on, which may be older than ours.</summary>
internal static class SystemZones
{
    /// <summary>Further than any pass lasts beyond a horizon.</summary>
    private static readonly Duration Margin = Duration.FromDays(40);

    /// <summary>Whether they have the same offsets over a horizon, and so may judge.</summary>
    public static bool Agree(DateTimeZone zone, Horizon horizon)
    {
        if (!TimeZoneInfo.TryFindSystemTimeZoneById(zone.Id, out var system)) return false;
        var (from, until) = (zone.AtStartOfDay(horizon.From).ToInstant() - Margin, zone.AtStartOfDay(horizon.Until).ToInstant() + Margin);
        for (var at = from; at < until; at += Duration.FromMinutes(30))
        {
            if (system.GetUtcOffset(at.ToDateTimeUtc()) != zone.GetUtcOffset(at).ToTimeSpan()) return false;
        }

        return true;
    }
}
