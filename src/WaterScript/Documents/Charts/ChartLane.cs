using System.Collections.Immutable;
using WaterScript.Model;

namespace WaterScript.Documents.Charts;

/// <summary>What a zone does on a day of a chart.</summary>
/// <param name="Zone">The zone.</param>
/// <param name="Items">In order of time.</param>
/// <param name="Forbidden">When restrictions forbid it water.</param>
internal sealed record ChartLane(Zone Zone, ImmutableArray<LaneItem> Items, ImmutableArray<ChartBand> Forbidden);
