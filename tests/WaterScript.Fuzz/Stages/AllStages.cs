using System.Collections.Immutable;
using System.Diagnostics;
using WaterScript.Fuzz.Inputs;

namespace WaterScript.Fuzz.Stages;

/// <summary>Sends inputs through all stages.</summary>
public static class AllStages
{
    private static readonly ImmutableArray<IStage> Stages =
    [
        new ReadStage(), new FormatStage(), new CheckStage(), new FixStage(), new CompileStage(), new DeviceListStage(), new PlayerStage(), new CalendarStage(),
            new ChartStage(), new DiffStage(), new AnswerStage(), new UsageStage(), new AuditStage(), new DeployedStage(),
        new PageStage(), new CommandStage(),
    ];

    /// <summary>The names of the stages.</summary>
    public static ImmutableArray<string> Names { get; } = [.. Stages.Select(stage => stage.Name)];

    /// <summary>Sends an input through all stages, up to the first in which something does not hold.</summary>
    /// <param name="input">The input.</param>
    /// <param name="counts">Counts, for each stage, the inputs for which there was something to do; null where nobody asks.</param>
    /// <returns>What is wrong; null for nothing.</returns>
    public static Failure? Run(FuzzInput input, StageCounts? counts = null)
    {
        ArgumentNullException.ThrowIfNull(input);
        var site = new SiteInHand(input.Files, input.Salt);
        var original = new SiteInHand(input.Original, input.Salt);
        counts?.Begin();
        foreach (var (index, stage) in Stages.Index())
        {
            var start = Stopwatch.GetTimestamp();
            try
            {
                var hadWork = stage.Run(site, original);
                counts?.Add(index, hadWork, Stopwatch.GetElapsedTime(start));
            }
#pragma warning disable CA1031 // Whatever it is, it is what this program looks for.
            catch (Exception problem)
#pragma warning restore CA1031
            {
                return Failure.Of(stage.Name, problem);
            }
        }

        return null;
    }
}
