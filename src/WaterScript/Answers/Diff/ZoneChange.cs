using WaterScript.Model;

namespace WaterScript.Answers.Diff;

/// <summary>A zone that gets more or less than it did.</summary>
/// <param name="Name">Its name.</param>
/// <param name="DisplayName">What people read.</param>
/// <param name="Old">What it got in a week; null for a new zone.</param>
/// <param name="New">What it gets in a week; null for one that is gone.</param>
internal sealed record ZoneChange(string Name, string DisplayName, WeeklyWater? Old, WeeklyWater? New)
{
    /// <summary>The zones of two versions that do not get the same, in order of the new file, then of the old.</summary>
    /// <param name="old">The old version.</param>
    /// <param name="oldWaterings">Its waterings.</param>
    /// <param name="new">The new version.</param>
    /// <param name="newWaterings">Its waterings.</param>
    /// <param name="days">The days that they are the waterings of.</param>
    /// <param name="flow">How exact flows are taken; null for as they are. A timetable has them rounded.</param>
    internal static IEnumerable<ZoneChange> Between(
        Site old, Version oldWaterings, Site @new, Version newWaterings, decimal days, Func<decimal?, decimal?>? flow = null)
    {
        var (before, after) = (WeeklyWater.ByZone(old, oldWaterings, days, flow), WeeklyWater.ByZone(@new, newWaterings, days, flow));
        return @new.Zones.Concat(old.Zones.Where(zone => !after.ContainsKey(zone.Name)))
            .Select(zone => new ZoneChange(zone.Name, zone.DisplayName, before.GetValueOrDefault(zone.Name), after.GetValueOrDefault(zone.Name)))
            .Where(change => (change.Old ?? WeeklyWater.None) != (change.New ?? WeeklyWater.None));
    }
}

/// <summary>What a zone gets in a week, the average of all dates that are compared.</summary>
/// <param name="Seconds">Run time, rounded to the whole second.</param>
/// <param name="Litres">Water, or null where the flow is not known.</param>
internal sealed record WeeklyWater(long Seconds, decimal? Litres)
{
    private const int DaysInWeek = 7;

    /// <summary>Nothing.</summary>
    internal static WeeklyWater None { get; } = new(0, null);

    /// <summary>That of each zone by name. A zone that gets nothing is <see cref="None"/>, whatever its flow.</summary>
    internal static Dictionary<string, WeeklyWater> ByZone(Site site, Version version, decimal days, Func<decimal?, decimal?>? flow) =>
        site.Zones.ToDictionary(zone => zone.Name, zone => Of(flow is null ? zone.LitresPerMinute : flow(zone.LitresPerMinute), version.SecondsOf(zone), days),
            StringComparer.Ordinal);

    private static WeeklyWater Of(decimal? litresPerMinute, long seconds, decimal days) => seconds == 0
        ? None
        : new((long)Math.Round((decimal)seconds * DaysInWeek / days, MidpointRounding.AwayFromZero), litresPerMinute * seconds / 60 * DaysInWeek / days);
}
