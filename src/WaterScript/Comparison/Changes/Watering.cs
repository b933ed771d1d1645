using System.Collections.Immutable;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Comparison;

/// <summary>A zone is watered.</summary>
/// <param name="Zone">Its name.</param>
/// <param name="From">Its start, in Unix seconds.</param>
/// <param name="To">Its end.</param>
public readonly record struct Watering(string Zone, long From, long To);

/// <summary>All that a schedule waters over a horizon.</summary>
/// <param name="Schedule">The schedule.</param>
/// <param name="Waterings">In order of their start; of a manual schedule, those of one pass at noon of the first date.</param>
/// <param name="Dates">Dates that its passes belong to, in order, as days since 1970-01-01.</param>
/// <param name="Lengths">For each zone by name, the shortest and the longest run time that a pass gives it, in seconds.</param>
internal sealed record ScheduleWaterings(
    Schedule Schedule, ImmutableArray<Watering> Waterings, ImmutableArray<int> Dates, ImmutableSortedDictionary<string, (long Least, long Most)> Lengths)
{
    /// <summary>Those of each schedule of a site, by its index.</summary>
    public static ImmutableArray<ScheduleWaterings> Of(Site site, Horizon horizon)
    {
        var gathered = site.Schedules.Select(_ => new Gathering()).ToArray();
        foreach (var run in Timetable.Of(site, horizon).Runs()) gathered[run.Schedule].Add(run, site);
        foreach (var manual in site.Schedules.Where(schedule => schedule.IsManual))
        {
            foreach (var run in Timetable.OfOnePass(site, manual, horizon.From.At(NodaTime.LocalTime.Noon)).Runs()) gathered[run.Schedule].Add(run, site);
        }

        return [.. site.Schedules.Select(schedule => gathered[schedule.Index].For(schedule))];
    }

    /// <summary>What of a site has been met so far for one schedule.</summary>
    private sealed class Gathering
    {
        private readonly ImmutableArray<Watering>.Builder _waterings = ImmutableArray.CreateBuilder<Watering>();
        private readonly SortedSet<int> _dates = [];
        private readonly Dictionary<(int Day, int Start, int Pass, string Zone), long> _inPass = [];

        public void Add(in Run run, Site site)
        {
            var zone = site.Zones[run.Zone].Name;
            _waterings.Add(new Watering(zone, run.Start, run.End));
            _dates.Add(run.Day);
            var key = (run.Day, run.StartNumber, run.Pass, zone);
            _inPass[key] = _inPass.GetValueOrDefault(key) + run.Seconds;
        }

        public ScheduleWaterings For(Schedule schedule) => new(
            schedule,
            _waterings.ToImmutable(),
            [.. _dates],
            _inPass.GroupBy(pass => pass.Key.Zone, pass => pass.Value).ToImmutableSortedDictionary(zone => zone.Key, zone => (zone.Min(), zone.Max()), StringComparer.Ordinal));
    }
}
