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
    /// <param name="days">The days of the season in which they are watered.</param>
    /// <param name="nameOf">What a zone of the old version is called in the new one.</param>
    /// <param name="flow">How exact flows are taken; null for as they are. A timetable has them rounded.</param>
    internal static IEnumerable<ZoneChange> Between(
        Site old, Version oldWaterings, Site @new, Version newWaterings, SeasonDays days, Func<string, string> nameOf, Func<decimal?, decimal?>? flow = null)
    {
        var before = WeeklyWater.ByZone(old, oldWaterings, zone => nameOf(zone.Name), days, flow);
        var after = WeeklyWater.ByZone(@new, newWaterings, zone => zone.Name, days, flow);
        return @new.Zones.Concat(old.Zones.Where(zone => !after.ContainsKey(nameOf(zone.Name))))
            .Select(zone => new ZoneChange(zone.Name, zone.DisplayName, before.GetValueOrDefault(zone.Name), after.GetValueOrDefault(zone.Name)))
            .Where(change => (change.Old ?? WeeklyWater.None) != (change.New ?? WeeklyWater.None));
    }
}

/// <summary>What a zone gets in a week, the average of its season.</summary>
/// <param name="Seconds">Run time, rounded to the whole second.</param>
/// <param name="Litres">Water, or null where the flow is not known.</param>
/// <param name="Millimetres">Depth, or null where it is not known or not compared.</param>
internal sealed record WeeklyWater(long Seconds, decimal? Litres, decimal? Millimetres)
{
    private const int DaysInWeek = 7;

    /// <summary>Nothing.</summary>
    internal static WeeklyWater None { get; } = new(0, null, null);

    /// <summary>That of each zone by name. A zone that gets nothing is <see cref="None"/>, whatever its flow.</summary>
    internal static Dictionary<string, WeeklyWater> ByZone(
        Site site, Version version, Func<Zone, string> nameOf, SeasonDays days, Func<decimal?, decimal?>? flow) =>
        site.Zones.ToDictionary(nameOf, zone => Of(flow is null ? zone.LitresPerMinute : flow(zone.LitresPerMinute),
            flow is null ? zone.MillimetresPerHour : null, version.SecondsOf(zone), days.Of(nameOf(zone))), StringComparer.Ordinal);

    private static WeeklyWater Of(decimal? litresPerMinute, decimal? millimetresPerHour, long seconds, decimal days) => seconds == 0
        ? None
        : new((long)Math.Round((decimal)seconds * DaysInWeek / days, MidpointRounding.AwayFromZero), litresPerMinute * seconds / 60 * DaysInWeek / days,
            millimetresPerHour * seconds / 3600 * DaysInWeek / days);
}
