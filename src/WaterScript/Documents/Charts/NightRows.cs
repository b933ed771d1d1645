using WaterScript.Documents.Charts.Drawing;
using WaterScript.Text;

namespace WaterScript.Documents.Charts;

/// <summary>Turns the runs of a night into rows: passes that repeat alike are one.</summary>
/// <param name="noon">When the night begins, in Unix seconds.</param>
/// <param name="figures">How amounts are written.</param>
/// <param name="placeOf">Gives places their numbers.</param>
internal sealed class NightRows(long noon, WaterFigures figures, Func<Location, int> placeOf)
{
    private const int FewestPasses = 4;

    /// <summary>Up to so many alike in one pass are its cycles, and stand by themselves.</summary>
    private const int MostCycles = 8;

    private const long FarthestApart = 7_200;
    private readonly Dictionary<(int Schedule, long Start), int> _passes = [];

    /// <summary>The rows, by start.</summary>
    /// <param name="runs">In order of start.</param>
    public IEnumerable<NightRow> Of(IReadOnlyList<ChartRun> runs)
    {
        foreach (var run in runs) PassOf(run.Run.Schedule, run.Run.PassStart);
        return runs.GroupBy(run => (run.Run.Zone, run.Run.Schedule, run.Source, run.Run.Seconds, IsOld: run.Run.Start < noon))
            .SelectMany(group => Rows([.. group]))
            .OrderBy(row => row.Start).ThenBy(row => row.Zone).ThenBy(row => row.Schedule);
    }

    /// <summary>What is not watered, by start.</summary>
    public IEnumerable<NightRow> Of(IEnumerable<ChartHeld> held) => held.Select(each => new NightRow(
        each.Zone.Index, each.From - noon, each.Until - each.From, each.Schedule.Index, PassOf(each.Schedule.Index, each.Pass), placeOf(each.Cause),
        each.Step, Every: 0, Times: 1, Shapes.Plain(each.Because)));

    private IEnumerable<NightRow> Rows(List<ChartRun> runs)
    {
        for (var i = 0; i < runs.Count;)
        {
            var (length, every) = AlikeFrom(runs, i);
            yield return RowOf(runs[i], length == 1 ? 0 : every, length);
            i += length;
        }
    }

    /// <summary>How many runs from one on follow each other at one distance, and which; 1 where they are too few to be one row.</summary>
    private static (int Length, long Every) AlikeFrom(List<ChartRun> runs, int first)
    {
        if (first + 1 >= runs.Count) return (1, 0);
        var every = runs[first + 1].Run.Start - runs[first].Run.Start;
        if (every is <= 0 or > FarthestApart) return (1, 0);
        var length = 2;
        while (first + length < runs.Count && runs[first + length].Run.Start - runs[first + length - 1].Run.Start == every) length++;
        var isOnePass = runs[first].Run.IsInPassOf(runs[first + length - 1].Run);
        return length >= FewestPasses && (!isOnePass || length > MostCycles) ? (length, every) : (1, 0);
    }

    private NightRow RowOf(ChartRun run, long every, int times) => new(run.Run.Zone, run.Run.Start - noon, run.Run.Seconds, run.Run.Schedule,
        PassOf(run.Run.Schedule, run.Run.PassStart), placeOf(run.Place), run.Step, every, times, figures.Of(run.Zone, run.Run.Seconds * times));

    private int PassOf(int schedule, long start)
    {
        if (!_passes.TryGetValue((schedule, start), out var number)) _passes[(schedule, start)] = number = _passes.Count;
        return number;
    }
}
