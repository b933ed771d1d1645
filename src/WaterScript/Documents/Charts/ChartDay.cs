using System.Collections.Immutable;
using NodaTime;

namespace WaterScript.Documents.Charts;

/// <summary>A day of a chart, from noon to noon. All instants are in Unix seconds.</summary>
/// <param name="Date">The date at whose noon it begins.</param>
/// <param name="From">That noon.</param>
/// <param name="Until">The next noon: 23, 24 or 25 hours later.</param>
internal sealed record ChartDay(LocalDate Date, long From, long Until)
{
    /// <summary>When the clock shows a full hour.</summary>
    public required ImmutableArray<ChartHour> Hours { get; init; }

    /// <summary>From sunset to sunrise; empty where the place is not known or the sun does neither.</summary>
    public required ImmutableArray<ChartBand> Nights { get; init; }

    /// <summary>Sunrise, sunset and changes of the clock.</summary>
    public required ImmutableArray<ChartNote> Notes { get; init; }

    /// <summary>A lane for each zone, in order of the file.</summary>
    public required ImmutableArray<ChartLane> Lanes { get; init; }

    /// <summary>What lies under the lanes: flows, levels, powers.</summary>
    public required ImmutableArray<ChartCurve> Curves { get; init; }

    /// <summary>Where findings happen, in order of time.</summary>
    public required ImmutableArray<ChartMark> Marks { get; init; }

    /// <summary>The runs that start on it, in order of start; on the first day those too that began before it.</summary>
    public required ImmutableArray<ChartRun> Runs { get; init; }
}
