using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>Where the steps of a timetable are written.</summary>
internal sealed class StepPlaces(Timetable timetable)
{
    private readonly Dictionary<Asker, StepPlace> _byAsker = [];
    private readonly Dictionary<(int Schedule, Step Step), StepPlace> _places = [];

    /// <summary>Where a step is written. All rounds of a repetition are one place.</summary>
    public StepPlace Of(Asker asker)
    {
        if (_byAsker.TryGetValue(asker, out var known)) return known;
        var found = Find(timetable.Site.Schedules[asker.Schedule], timetable.StepPath(asker.Schedule, asker.Step));
        if (!_places.TryGetValue((asker.Schedule, found.Step), out var place)) _places[(asker.Schedule, found.Step)] = place = found with { Number = _places.Count };
        return _byAsker[asker] = place;
    }

    /// <summary>Follows a path such as <c>3#2.1</c>: the first step of the second round of the third.</summary>
    private static StepPlace Find(Schedule schedule, string path)
    {
        var (steps, step, isInSequence) = (schedule.Steps, schedule.Steps[0], false);
        foreach (var part in path.Split('.'))
        {
            step = steps[int.Parse(part.Split('#')[0], CultureInfo.InvariantCulture) - 1];
            isInSequence |= step is RunStep;
            steps = step switch
            {
                RepeatStep repeat => repeat.Steps,
                CycleStep cycle => cycle.Steps,
                RunStep run => run.Sequence.Steps,
                _ => [],
            };
        }

        return new StepPlace(schedule, step, isInSequence);
    }
}

/// <summary>A step as it is written.</summary>
/// <param name="Schedule">The schedule that does it.</param>
/// <param name="Step">The step.</param>
/// <param name="IsInSequence">Whether it stands in a sequence, not in the schedule itself.</param>
internal sealed record StepPlace(Schedule Schedule, Step Step, bool IsInSequence)
{
    /// <summary>Its place among the steps that were asked for, from 0.</summary>
    public int Number { get; init; }

    /// <summary>Its place, and that of its schedule where it stands outside of it: an <c>accept</c> in either reaches it.</summary>
    public IEnumerable<Label> Labels(string text) =>
        IsInSequence ? [new Label(Step.Origin, text), new Label(Schedule.Origin, "this schedule runs it")] : [new Label(Step.Origin, text)];
}
