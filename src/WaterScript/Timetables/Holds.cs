using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>
/// The holds of a site on the axis of time. A hold keeps ground dry: of a run of a held zone, what lies before the hold stays,
/// a run that starts inside it is left out whole.
/// </summary>
internal sealed class Holds
{
    private readonly ImmutableArray<Span> _spans;

    private Holds(ImmutableArray<Span> spans) => _spans = spans;

    /// <summary>No hold.</summary>
    public static Holds None { get; } = new([]);

    /// <summary>How many.</summary>
    public int Count => _spans.Length;

    /// <summary>Whether there is none.</summary>
    public bool IsNone => _spans.IsEmpty;

    /// <summary>All of them, from the first instant to the first one after; <see cref="long.MaxValue"/> until lifted.</summary>
    public IEnumerable<(Hold Hold, long From, long Until)> All => _spans.Select(span => (span.Hold, span.From, span.Until));

    /// <summary>The holds of a site, by its wall clock.</summary>
    public static Holds Of(Site site, ZoneClock clock) => new([.. site.Holds.Select(hold => SpanOf(hold, site, clock))]);

    /// <summary>The hold that takes all or the end of a run, or null; the earliest where several do.</summary>
    /// <param name="zone">Index of its zone.</param>
    /// <param name="start">Its start, in Unix seconds.</param>
    /// <param name="end">Its end.</param>
    /// <param name="left">The end of what is left; no later than <paramref name="start"/> when nothing is.</param>
    public Hold? Take(int zone, long start, long end, out long left)
    {
        Hold? taker = null;
        left = end;
        foreach (var span in _spans)
        {
            if (span.From >= left || span.Until <= start || !span.Holds(zone)) continue;
            taker = span.Hold;
            left = span.From;
        }

        return taker;
    }

    /// <summary>The holds in force at an instant, with the first instant after each; <see cref="long.MaxValue"/> until lifted.</summary>
    public IEnumerable<(Hold Hold, long Until)> At(long instant) =>
        _spans.Where(span => span.From <= instant && instant < span.Until).Select(span => (span.Hold, span.Until));

    private static Span SpanOf(Hold hold, Site site, ZoneClock clock)
    {
        var from = InstantOf(hold.From, clock);
        var until = hold switch
        {
            { For: { } length } => from + length.WholeSeconds(),
            { Until: { } end } => InstantOf(end, clock),
            _ => long.MaxValue,
        };
        var zones = hold.Zones.IsEmpty ? null : new bool[site.Zones.Length];
        foreach (var zone in hold.Zones) zones![zone.Index] = true;
        return new Span(from, until, zones, hold);
    }

    private static long InstantOf(LocalDateTime moment, ZoneClock clock) =>
        clock.Read(CivilDate.DayNumberOf(moment.Date), (int)(moment.TimeOfDay.TickOfDay / NodaConstants.TicksPerSecond)).Instant;

    private sealed record Span(long From, long Until, bool[]? Zones, Hold Hold)
    {
        public bool Holds(int zone) => Zones is null || Zones[zone];
    }
}
