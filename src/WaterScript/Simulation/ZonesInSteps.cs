using WaterScript.Model;

namespace WaterScript.Simulation;

/// <summary>Which zones the steps of schedules name, whatever scale and trim make of their run times.</summary>
internal static class ZonesInSteps
{
    /// <summary>The indexes of the zones.</summary>
    public static HashSet<int> Of(IEnumerable<Schedule> schedules)
    {
        var zones = new HashSet<int>();
        var seen = new HashSet<Sequence>(ReferenceEqualityComparer.Instance);
        foreach (var schedule in schedules) Add(schedule.Steps, zones, seen);
        return zones;
    }

    private static void Add(IEnumerable<Step> steps, HashSet<int> zones, HashSet<Sequence> seen)
    {
        foreach (var step in steps)
        {
            switch (step)
            {
                case WaterStep water:
                    zones.UnionWith(water.Parts.SelectMany(part => part.Zones).Select(zone => zone.Index));
                    break;
                case TogetherStep together:
                    Add(together.Waters, zones, seen);
                    break;
                case RepeatStep repeat:
                    Add(repeat.Steps, zones, seen);
                    break;
                case CycleStep cycle:
                    Add(cycle.Steps, zones, seen);
                    break;
                case RunStep run when seen.Add(run.Sequence):
                    Add(run.Sequence.Steps, zones, seen);
                    break;
            }
        }
    }
}
