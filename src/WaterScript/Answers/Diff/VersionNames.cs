using WaterScript.Answers.Diff.Written;
using WaterScript.Model;

namespace WaterScript.Answers.Diff;

/// <summary>What zones and schedules of a version are called in both, and the numbers of these names.</summary>
/// <param name="Zones">Numbers of zones.</param>
/// <param name="Schedules">Numbers of schedules.</param>
/// <param name="Renames">What has another name in the new version; nothing for that one itself.</param>
/// <param name="InBoth">Names of schedules that both versions have, as the new one calls them.</param>
internal sealed record VersionNames(Names Zones, Names Schedules, Renames Renames, IReadOnlySet<string> InBoth)
{
    /// <summary>What a zone is called in both.</summary>
    public string OfZone(Zone zone) => Renames.OfZone(zone.Name);

    /// <summary>What a schedule is called in both.</summary>
    public string OfSchedule(Schedule schedule) => Renames.OfSchedule(schedule.Name);

    /// <summary>Whether both versions have a schedule.</summary>
    public bool IsInBoth(Schedule schedule) => InBoth.Contains(OfSchedule(schedule));
}
