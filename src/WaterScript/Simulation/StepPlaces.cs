using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Simulation;

/// <summary>Where the steps of a timetable are written.</summary>
internal sealed class StepPlaces(Timetable timetable)
{
    private readonly Dictionary<StepOrigin, StepPlace> _byAsker = [];
    private readonly Dictionary<(int Schedule, WaterStep Step), StepPlace> _places = [];

    /// <summary>Where the step of a run is written.</summary>
    public StepPlace Of(in Run run) => Of(new StepOrigin(run.Schedule, run.Step));

    /// <summary>Where a step is written. All rounds of a repetition are one place.</summary>
    public StepPlace Of(StepOrigin origin)
    {
        if (_byAsker.TryGetValue(origin, out var known)) return known;
        var step = timetable.StepOf(origin.Schedule, origin.Step);
        var key = (origin.Schedule, step);
        if (!_places.TryGetValue(key, out var place)) _places[key] = place = PlaceOf(step, timetable.Site.Schedules[origin.Schedule], _places.Count);
        return _byAsker[origin] = place;
    }

    private static StepPlace PlaceOf(Step step, Schedule schedule, int number) =>
        new(schedule, step, IsInSequence: !Holds(schedule.Steps, step)) { Number = number };

    /// <summary>Whether a step stands among others, not in a sequence that they run. The binder has refused steps that nest too deep.</summary>
    private static bool Holds(IEnumerable<Step> steps, Step step) => steps.Any(each => each switch
    {
        RepeatStep repeat => Holds(repeat.Steps, step),
        CycleStep cycle => Holds(cycle.Steps, step),
        TogetherStep together => Holds(together.Waters, step),
        _ => each == step,
    });
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
