using System.Collections.Immutable;
using NodaTime;

namespace WaterScript.Documents.Charts;

/// <summary>A day of a chart, from noon to noon. All instants are in Unix seconds.</summary>
/// <param name="Date">The date at whose noon it begins.</param>
/// <param name="From">That noon.</param>
/// <param name="Until">The next noon: 23, 24 or 25 hours later.</param>
internal sealed record ChartDay(LocalDate Date, long From, long Until)
{
    /// <summary>From sunset to sunrise; empty where the place is not known or the sun does neither.</summary>
    public required ImmutableArray<ChartBand> Nights { get; init; }

    /// <summary>Sunrise and sunset.</summary>
    public required ImmutableArray<ChartNote> Sun { get; init; }

    /// <summary>Changes of the clock, and what it shows then beside the clock of noon, in seconds.</summary>
    public required ImmutableArray<ChartShift> Shifts { get; init; }

    /// <summary>When restrictions forbid water.</summary>
    public required ImmutableArray<ChartForbidden> Forbidden { get; init; }

    /// <summary>What lies under the lanes: flows, levels, powers.</summary>
    public required ImmutableArray<ChartCurve> Curves { get; init; }

    /// <summary>Pumps, masters and injectors that are on at some time.</summary>
    public required ImmutableArray<ChartDevice> Devices { get; init; }

    /// <summary>Where findings happen, in order of time.</summary>
    public required ImmutableArray<ChartMark> Marks { get; init; }

    /// <summary>The runs that touch it, in order of start; those that begin before it, too.</summary>
    public required ImmutableArray<ChartRun> Touching { get; init; }

    /// <summary>What is due on it and is not watered.</summary>
    public required ImmutableArray<ChartHeld> Held { get; init; }

    /// <summary>The runs that belong to it: they start on it, or on the first day began before it.</summary>
    public required ImmutableArray<ChartRun> Runs { get; init; }
}

/// <summary>The clock changes.</summary>
/// <param name="At">When, in Unix seconds.</param>
/// <param name="By">What it is on from then, beside the clock of noon, in seconds.</param>
/// <param name="Words">What it does: <c>clocks go forward 1 h</c>.</param>
internal sealed record ChartShift(long At, long By, string Words);

/// <summary>When a restriction forbids water.</summary>
/// <param name="Restriction">What people call it.</param>
/// <param name="Zones">Indexes of the zones.</param>
/// <param name="Bands">When, in order.</param>
internal sealed record ChartForbidden(string Restriction, ImmutableArray<int> Zones, ImmutableArray<ChartBand> Bands);

/// <summary>When a pump, a master or an injector is on.</summary>
/// <param name="Name">What it is and what people call it.</param>
/// <param name="Seconds">How long in all.</param>
/// <param name="Bands">When, in order.</param>
internal sealed record ChartDevice(string Name, long Seconds, ImmutableArray<ChartBand> Bands);

/// <summary>Something about a moment.</summary>
/// <param name="At">When, in Unix seconds.</param>
/// <param name="Text"><c>sunset 20:41</c></param>
internal sealed record ChartNote(long At, string Text);
