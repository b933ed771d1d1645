using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>
/// What is read and checked but not computed yet, in one place. Each use is an error, because a timetable without it would be
/// wrong.
/// </summary>
internal sealed class NotYetComputed(Site site, Scope scope)
{
    private readonly HashSet<Location> _told = [];

    /// <summary>Reports every use.</summary>
    public void Report()
    {
        foreach (var scale in UsedScales().OfType<ClimateScale>()) Tell(scale.Origin, "a scale by climate is not computed yet");
        foreach (var step in site.Schedules.SelectMany(schedule => schedule.Steps)) Visit(step);
    }

    private IEnumerable<Scale> UsedScales()
    {
        var names = site.Schedules.Select(schedule => schedule.Scale?.Name).Append(site.Scale?.Name).ToHashSet();
        return site.Scales.Where(scale => names.Contains(scale.Name));
    }

    private void Visit(Step step)
    {
        switch (step)
        {
            case CycleStep { Cycle: null }:
                Tell(step.Origin, "the lengths of `cycle auto` are not computed yet", "Say them, like this: cycle 6 min soak 30 min { … }");
                break;
            case RepeatStep repeat:
                foreach (var inner in repeat.Steps) Visit(inner);
                break;
            case RunStep run when _told.Add(run.Sequence.Origin):
                foreach (var inner in run.Sequence.Steps) Visit(inner);
                break;
        }
    }

    private void Tell(Location origin, string heading, string wayOut = "Leave it out for now.")
    {
        if (_told.Add(origin)) scope.Report(Rules.NotComputed, origin, heading, "left out until it is", wayOut);
    }
}
