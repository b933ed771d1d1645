using System.Collections.Immutable;
using WaterScript.Timetables;

namespace WaterScript.Editing.Strips;

/// <summary>What a line makes. All times are seconds since a noon.</summary>
/// <param name="Line">The line, from 1.</param>
/// <param name="Bars">When there is water, in order and apart; of a comb from the first start to the last end.</param>
/// <param name="IsComb">Whether there are too many bars to be seen apart.</param>
/// <param name="Words">What it comes to, as Markdown.</param>
internal sealed record StripLine(int Line, ImmutableArray<(long From, long Until)> Bars, bool IsComb, string Words)
{
    /// <summary>A strip is so many pixels wide.</summary>
    private const int Width = 64;

    /// <summary>What begins so many pixels after another is seen apart from it.</summary>
    private const int LeastPitch = 4;

    /// <summary>The line of some runs.</summary>
    /// <param name="line">The line, from 1.</param>
    /// <param name="runs">The runs, one or more.</param>
    /// <param name="noon">The noon, in Unix seconds.</param>
    /// <param name="length">How much time the strip shows, in seconds.</param>
    /// <param name="words">What it comes to.</param>
    public static StripLine Of(int line, ImmutableArray<Run> runs, long noon, long length, string words)
    {
        var bars = new List<(long From, long Until)>();
        foreach (var run in runs.OrderBy(run => run.Start))
        {
            var (from, until) = (run.Start - noon, run.End - noon);
            if (bars.Count > 0 && from <= bars[^1].Until) bars[^1] = (bars[^1].From, Math.Max(bars[^1].Until, until));
            else bars.Add((from, until));
        }

        var (first, last) = (bars[0].From, bars[^1].Until);
        var isComb = bars.Count > 2 && (last - first) * Width < bars.Count * LeastPitch * length;
        return new StripLine(line, isComb ? [(first, last)] : [.. bars], isComb, words);
    }
}
