using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Simulation;

/// <summary>The most that passes can ask of each zone on any date, known before the first run: who cannot be concerned need not be shown any.</summary>
internal sealed class ZonePlans
{
    private readonly long[] _longest;
    private readonly bool[] _soaks;
    private readonly int[] _schedules;

    public ZonePlans(Timetable timetable)
    {
        var site = timetable.Site;
        _longest = new long[site.Zones.Length];
        _soaks = new bool[site.Zones.Length];
        _schedules = new int[site.Zones.Length];
        foreach (var schedule in site.Schedules)
        {
            var watered = new HashSet<int>();
            foreach (var run in timetable.PlansOf(schedule.Index).SelectMany(plan => plan.Runs))
            {
                _longest[run.Zone] = Math.Max(_longest[run.Zone], run.Seconds);
                _soaks[run.Zone] |= run.Soak > 0;
                if (watered.Add(run.Zone)) _schedules[run.Zone]++;
            }
        }
    }

    /// <summary>The longest that one run of a zone can be, in seconds.</summary>
    public long LongestOf(Zone zone) => _longest[zone.Index];

    /// <summary>Whether a zone soaks between runs.</summary>
    public bool Soaks(Zone zone) => _soaks[zone.Index];

    /// <summary>Whether more than one schedule waters a zone.</summary>
    public bool IsShared(Zone zone) => _schedules[zone.Index] > 1;
}
