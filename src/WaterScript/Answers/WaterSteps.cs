using WaterScript.Model;

namespace WaterScript.Answers;

/// <summary>The waterings that a schedule is written with, those of its sequences too. The binder has refused steps that nest too deep.</summary>
internal static class WaterSteps
{
    /// <summary>Those of a schedule, in written order.</summary>
    public static IEnumerable<WaterStep> Of(Schedule schedule) => schedule.Steps.SelectMany(Of);

    private static IEnumerable<WaterStep> Of(Step step) => step switch
    {
        WaterStep water => [water],
        TogetherStep together => together.Waters,
        RepeatStep repeat => repeat.Steps.SelectMany(Of),
        CycleStep cycle => cycle.Steps.SelectMany(Of),
        RunStep run => run.Sequence.Steps.SelectMany(Of),
        _ => [],
    };
}
