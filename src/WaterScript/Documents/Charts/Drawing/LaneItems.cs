using System.Collections.Immutable;

namespace WaterScript.Documents.Charts.Drawing;

/// <summary>Gathers the runs of a lane into what stands under one text.</summary>
internal static class LaneItems
{
    /// <summary>The fewest passes that make a row.</summary>
    private const int FewestInRow = 3;

    /// <summary>Passes that follow each other within so many seconds have no room for a text of their own.</summary>
    private const long TooClose = 2_400;

    /// <summary>Passes of up to so many seconds are too short to be seen.</summary>
    private const long TooShort = 150;

    /// <summary>Passes that follow each other after longer than so many seconds are distinguished, however short they are.</summary>
    private const long FarApart = 3_600;

    /// <summary>The items of one zone and day.</summary>
    /// <param name="runs">In order of start.</param>
    public static ImmutableArray<LaneItem> Of(IEnumerable<ChartRun> runs)
    {
        var passes = new List<List<ChartRun>>();
        var byPass = new Dictionary<(int Schedule, int Day, int Start, int Pass), List<ChartRun>>();
        foreach (var run in runs)
        {
            var key = (run.Run.Schedule, run.Run.Day, run.Run.StartNumber, run.Run.Pass);
            if (!byPass.TryGetValue(key, out var own)) passes.Add(byPass[key] = own = []);
            own.Add(run);
        }

        return [.. Rows(passes)];
    }

    private static IEnumerable<LaneItem> Rows(List<List<ChartRun>> passes)
    {
        for (var i = 0; i < passes.Count;)
        {
            var length = RowFrom(passes, i);
            var every = length < FewestInRow ? 0 : EveryOf(passes, i);
            if (every == 0) length = 1;
            yield return new LaneItem([.. passes.Skip(i).Take(length).SelectMany(pass => pass)], length, every);
            i += length;
        }
    }

    /// <summary>How many passes from one on follow each other alike.</summary>
    private static int RowFrom(List<List<ChartRun>> passes, int first)
    {
        var length = 1;
        while (first + length < passes.Count && IsAlike(passes, first, first + length)) length++;
        return length;
    }

    private static bool IsAlike(List<List<ChartRun>> passes, int first, int next)
    {
        var (a, before, own) = (passes[first][0].Run, passes[next - 1][0].Run, passes[next][0].Run);
        var every = EveryOf(passes, first);
        var isShort = passes[first].Sum(run => run.Run.Seconds) <= TooShort;
        return a.Schedule == own.Schedule && a.Day == own.Day && a.StartNumber == own.StartNumber
            && own.Start - before.Start == every && every <= (isShort ? FarApart : TooClose);
    }

    private static long EveryOf(List<List<ChartRun>> passes, int first) => passes[first + 1][0].Run.Start - passes[first][0].Run.Start;
}
