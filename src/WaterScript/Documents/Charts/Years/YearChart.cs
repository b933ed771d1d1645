using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Documents.Charts.Years;

/// <summary>Why a day has no water.</summary>
internal enum DayState
{
    /// <summary>Nothing is due, or it comes.</summary>
    Open,

    /// <summary>A hold takes what is due.</summary>
    Held,

    /// <summary>A closed season.</summary>
    Closed,
}

/// <summary>Something that holds from one day of a year to another.</summary>
/// <param name="From">The first day, from 0.</param>
/// <param name="Until">The day after the last.</param>
/// <param name="Words">What: <c>closed: lines blown out</c>.</param>
internal sealed record YearNote(int From, int Until, string Words);

/// <summary>
/// The watering of a year, day by day. A watering counts for the date that its pass belongs to, as in the totals of a timetable. Seconds are whole and
/// water is worked out of them, so what is added up is exact.
/// </summary>
/// <param name="Site">The site.</param>
/// <param name="From">The first date.</param>
/// <param name="Days">How many days.</param>
internal sealed record YearChart(Site Site, LocalDate From, int Days)
{
    /// <summary>Seconds of each zone on each day.</summary>
    public required ImmutableArray<int[]> Seconds { get; init; }

    /// <summary>Runs on each day.</summary>
    public required ImmutableArray<int> Runs { get; init; }

    /// <summary>The state of each day.</summary>
    public required ImmutableArray<DayState> States { get; init; }

    /// <summary>Holds, closed seasons and seasons of restrictions, by their first day.</summary>
    public required ImmutableArray<YearNote> Notes { get; init; }

    /// <summary>Days on which the clock changes, and how.</summary>
    public required ImmutableArray<YearNote> Changes { get; init; }

    /// <summary>The nights in which there is any water, for whoever opens a day; null where there are too many.</summary>
    public required Chart? Nights { get; init; }

    /// <summary>What tanks hold, where that can be followed.</summary>
    public required ImmutableArray<TankYear> Tanks { get; init; }

    /// <summary>The months, each with its first day, from 0, and its length in the year.</summary>
    public IEnumerable<(CivilMonth Month, int From, int Until)> Months()
    {
        var first = CivilDate.DayNumberOf(From);
        return CivilMonth.Between(first, first + Days - 1).Select(month =>
            (month, Math.Max(month.First, first) - first, Math.Min(month.Last + 1, first + Days) - first));
    }

    /// <summary>The date of a day.</summary>
    public LocalDate DateOf(int day) => From.PlusDays(day);

    /// <summary>Water in litres of the zones whose flow is known, on some days.</summary>
    public decimal Litres(int from, int until) => Site.Zones.Sum(zone => (zone.LitresPerMinute ?? 0) * SecondsOf(zone, from, until) / 60);

    /// <summary>Seconds of a zone on some days.</summary>
    public long SecondsOf(Zone zone, int from, int until)
    {
        var sum = 0L;
        for (var day = from; day < until; day++) sum += Seconds[zone.Index][day];
        return sum;
    }
}
