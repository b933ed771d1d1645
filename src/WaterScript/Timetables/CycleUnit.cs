using WaterScript.Agronomy;
using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>
/// What a cycle splits as one: the zones between two commas. Zones that are on together are split into the same number of
/// pieces, which the longest of them needs, so that they stay together in every round.
/// </summary>
internal sealed class CycleUnit
{
    private readonly List<ZoneTime> _times;

    /// <summary>Makes it.</summary>
    /// <param name="cycle">The cycle.</param>
    /// <param name="path">The path of the step that it is written in, inside the cycle.</param>
    /// <param name="times">At least one zone.</param>
    public CycleUnit(CycleStep cycle, string path, List<ZoneTime> times)
    {
        _times = times;
        Path = path;
        Pieces = CycleAndSoak.Pieces(times.Max(time => time.Seconds), CycleAndSoak.LongestPiece(cycle, times.Select(time => time.Zone)));
        Soak = times.Max(time => CycleAndSoak.Soak(cycle, time.Zone, CycleAndSoak.Piece(time.Seconds, Pieces, number: 1)));
    }

    /// <summary>The path of the step that it is written in, inside the cycle.</summary>
    public string Path { get; }

    /// <summary>Into how many pieces it is split.</summary>
    public long Pieces { get; }

    /// <summary>The least time in seconds after a piece before one of its zones is watered again.</summary>
    public long Soak { get; }

    /// <summary>How long each zone is watered in a round; a zone with fewer seconds than there are pieces is not in all of them.</summary>
    /// <param name="round">From 1 to <see cref="Pieces"/>.</param>
    public List<ZoneTime> TimesIn(long round) =>
        [.. _times.Select(time => time with { Seconds = CycleAndSoak.Piece(time.Seconds, Pieces, round) }).Where(time => time.Seconds > 0)];
}
