using System.Collections.Immutable;

namespace WaterScript.Documents.Charts;

/// <summary>What stands in a lane under one text: a pass of a schedule, or a row of passes that are too short or too close together to be seen apart.</summary>
/// <param name="Runs">In order of time; what lies beyond the day is cut off where it is drawn.</param>
/// <param name="Passes">How many passes they belong to.</param>
/// <param name="Every">Seconds from the start of a pass to that of the next, for a row of them; 0 for one.</param>
internal sealed record LaneItem(ImmutableArray<ChartRun> Runs, int Passes, long Every)
{
    /// <summary>First second.</summary>
    public long From => Runs[0].Run.Start;

    /// <summary>The second after the last.</summary>
    public long Until => Runs[^1].Run.End;

    /// <summary>Whether it is a row of passes.</summary>
    public bool IsRow => Every > 0;
}
