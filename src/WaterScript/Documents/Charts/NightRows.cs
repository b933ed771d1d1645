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
            .SelectMany(group => Rows([.. group], run => (run.Run.Start, run.Run.PassStart), RowOf))
            .OrderBy(row => row.Start).ThenBy(row => row.Zone).ThenBy(row => row.Schedule);
    }

    /// <summary>What is not watered, by start.</summary>
    /// <param name="held">In order of start.</param>
    public IEnumerable<NightRow> Of(IReadOnlyList<ChartHeld> held) => held
        .GroupBy(each => (each.Zone.Index, each.Schedule.Index, each.Place, each.Cause, each.Because, each.Until - each.From))
        .SelectMany(group => Rows([.. group], each => (each.From, each.Pass), RowOf))
        .OrderBy(row => row.Start).ThenBy(row => row.Zone).ThenBy(row => row.Schedule);

    private static IEnumerable<NightRow> Rows<T>(List<T> all, Func<T, (long Start, long Pass)> timesOf, Func<T, long, int, NightRow> rowOf)
    {
        List<(long Start, long Pass)> times = [.. all.Select(timesOf)];
        for (var i = 0; i < all.Count;)
        {
            var (length, every) = AlikeFrom(times, i);
            yield return rowOf(all[i], length == 1 ? 0 : every, length);
            i += length;
        }
    }

    /// <summary>How many from one on follow each other at one distance, and which; 1 where they are too few to be one row.</summary>
    private static (int Length, long Every) AlikeFrom(List<(long Start, long Pass)> all, int first)
    {
        if (first + 1 >= all.Count) return (1, 0);
        var every = all[first + 1].Start - all[first].Start;
        if (every is <= 0 or > FarthestApart) return (1, 0);
        var length = 2;
        while (first + length < all.Count && all[first + length].Start - all[first + length - 1].Start == every) length++;
        var isOnePass = all[first].Pass == all[first + length - 1].Pass;
        return length >= FewestPasses && (!isOnePass || length > MostCycles) ? (length, every) : (1, 0);
    }

    private NightRow RowOf(ChartRun run, long every, int times) => new(run.Run.Zone, run.Run.Start - noon, run.Run.Seconds, run.Run.Schedule,
        PassOf(run.Run.Schedule, run.Run.PassStart), placeOf(run.Place), run.Step, every, times, figures.Of(run.Zone, run.Run.Seconds * times));

    private NightRow RowOf(ChartHeld held, long every, int times) => new(held.Zone.Index, held.From - noon, held.Until - held.From, held.Schedule.Index,
        PassOf(held.Schedule.Index, held.Pass), placeOf(held.Cause), held.Step, every, times, Shapes.Plain(held.Because));

    private int PassOf(int schedule, long start)
    {
        if (!_passes.TryGetValue((schedule, start), out var number)) _passes[(schedule, start)] = number = _passes.Count;
        return number;
    }
}
