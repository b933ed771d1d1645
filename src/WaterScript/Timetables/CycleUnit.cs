using WaterScript.Agronomy;
using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>
/// What a cycle splits as one: the zones between two commas. Zones that are on together are split into the same number of
/// pieces, which the longest of them needs, so that they stay together in every round.
/// </summary>
internal sealed class CycleUnit(WaterStep step, string path, List<ZoneTime> times, long longest)
{
    /// <summary>The step that it is written in.</summary>
    public WaterStep Step => step;

    /// <summary>The path of that step inside the cycle.</summary>
    public string Path => path;

    /// <summary>Into how many pieces it is split.</summary>
    public long Pieces { get; } = CycleAndSoak.Pieces(times.Max(time => time.Seconds), longest);

    /// <summary>How long each zone is watered in a round; a zone with fewer seconds than there are pieces is not in all of them.</summary>
    /// <param name="round">From 1 to <see cref="Pieces"/>.</param>
    public List<ZoneTime> TimesIn(long round) =>
        [.. times.Select(time => time with { Seconds = CycleAndSoak.Piece(time.Seconds, Pieces, round) }).Where(time => time.Seconds > 0)];
}
