using System.Collections.Immutable;
using WaterScript.Agronomy;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Simulation.Water;

/// <summary>
/// The water of a zone from day to day over a horizon: what its plants use, what rain and watering bring, and what the ground keeps.
/// Monthly means hold for every day of their month. The ground is full at the start.
/// </summary>
internal sealed class ZoneBalance
{
    /// <summary>Waterings further apart than this belong to two seasons; what lies between is no lack of water but the end of a season.</summary>
    private const int SeasonGap = 31;

    private const string Climate = "climate", Location = "location", Temperatures = "temperatures", Rate = "rate";

    private readonly Zone _zone;
    private readonly RootZone? _roots;
    private readonly ImmutableArray<MonthWeather?> _year;
    private readonly IReadOnlyList<WateredDay> _days;
    private Action<GroundDay>? _see;
    private decimal _depletion;
    private int _next, _monthBegins;

    private ZoneBalance(Zone zone, IReadOnlyList<WateredDay> days, ImmutableArray<MonthWeather?> year) =>
        (_zone, _roots, _days, _year) = (zone, RootZone.Of(zone), days, year);

    /// <summary>Why nothing can be said of a zone, in a few words; null where it can.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="site">Its site.</param>
    /// <param name="year">The climate, month by month.</param>
    public static string? LacksFor(Zone zone, Site site, ImmutableArray<MonthWeather?> year) =>
        MissingFor(zone, site, year) is { } missing ? $"no {(missing == Rate ? "application rate" : missing)} given" : null;

    /// <summary>What is missing to say something of a zone, as it is written in a file; null where nothing is.</summary>
    /// <inheritdoc cref="LacksFor"/>
    public static string? MissingFor(Zone zone, Site site, ImmutableArray<MonthWeather?> year) =>
        site.Climate is not { } climate ? Climate
        : year.All(month => month is null) ? (climate.Months.Any(month => month?.Means is not null) ? Location : Temperatures)
        : zone.Plants is null ? "plants"
        : zone.Plants.Coefficients.IsEmpty ? "coefficient"
        : zone.MillimetresPerHour is null ? Rate
        : null;

    /// <summary>Whether something that is missing belongs to the site, and not to a zone.</summary>
    public static bool IsOfSite(string missing) => missing is Climate or Location or Temperatures;

    /// <summary>The months of a horizon, in order.</summary>
    /// <param name="zone">A zone that lacks nothing.</param>
    /// <param name="days">The dates on which it is watered, in order.</param>
    /// <param name="horizon">The horizon.</param>
    /// <param name="year">The climate, month by month.</param>
    /// <param name="see">Is shown the ground day by day, where it is known; null when nobody asks.</param>
    public static IReadOnlyList<ZoneMonth> Of(
        Zone zone, IReadOnlyList<WateredDay> days, Horizon horizon, ImmutableArray<MonthWeather?> year, Action<GroundDay>? see = null)
    {
        var balance = new ZoneBalance(zone, days, year) { _see = see };
        var (first, end) = (CivilDate.DayNumberOf(horizon.From), CivilDate.DayNumberOf(horizon.Until));
        return [.. CivilMonth.Between(first, end - 1).Select(month => balance.MonthFrom(month, Math.Max(first, month.First), Math.Min(end - 1, month.Last)))];
    }

    private ZoneMonth MonthFrom(CivilMonth month, int first, int last)
    {
        var weather = _year[month.Month - 1];
        var demand = weather is null ? null : CropDemand.PerDay(_zone.Plants!, weather);
        var sum = new ZoneMonth(month.Month, IsKnown: demand is not null)
        {
            Zone = _zone,
            DemandOfDay = demand ?? 0,
            RainOfMonth = weather?.EffectiveRain ?? 0,
            Length = month.Length,
        };
        _monthBegins = month.First;
        for (var day = first; day <= last; day++) sum = DayOf(day, sum);
        return sum;
    }

    private ZoneMonth DayOf(int day, ZoneMonth sum)
    {
        while (_next < _days.Count && _days[_next].Day < day) _next++;
        var seconds = _next < _days.Count && _days[_next].Day == day ? _days[_next].Seconds : 0;
        var share = ShareOf(day);
        sum = sum with
        {
            Days = sum.Days + 1,
            Seconds = sum.Seconds + seconds,
            SeasonDays = sum.SeasonDays + (share is null ? 0 : 1),
            SeasonSeconds = sum.SeasonSeconds + (share ?? 0),
        };
        if (_roots is not { } roots) return sum;
        var (rain, watering) = (sum.RainOfMonth / sum.Length, WaterLedger.UsableDepth(_zone, seconds)!.Value);
        var balance = roots.Next(_depletion, rain + watering, sum.DemandOfDay);
        _see?.Invoke(new GroundDay(day, watering, rain, Math.Max(0, _depletion - rain - watering), balance));
        _depletion = balance.Depletion;
        return sum with
        {
            Percolation = sum.Percolation + balance.Percolation,
            StressDays = sum.StressDays + (balance.IsStressed ? 1 : 0),
        };
    }

    /// <summary>
    /// Seconds of watering that are for a date in a row of waterings, from the first of them until the next after the last would have been due: each watering
    /// is for all days until the next, the last for those of its month. Null for a date in none. Else a month with two waterings, 22 days apart, would seem
    /// to get too much.
    /// </summary>
    private decimal? ShareOf(int day)
    {
        var next = _next < _days.Count ? _days[_next].Day : int.MaxValue;
        var last = next == day ? _next : _next - 1;
        if (last < 0) return null;
        var after = last + 1 < _days.Count ? _days[last + 1].Day - _days[last].Day : int.MaxValue;
        if (after <= SeasonGap) return (decimal)_days[last].Seconds / after;
        var before = last > 0 ? _days[last].Day - _days[last - 1].Day : int.MaxValue;
        return before <= SeasonGap && day < _days[last].Day + before && _days[last].Day >= _monthBegins ? (decimal)_days[last].Seconds / before : null;
    }
}

/// <summary>A day of the ground of a zone; depths are in mm.</summary>
/// <param name="Day">In days since 1970-01-01.</param>
/// <param name="Watering">Watering that plants can use.</param>
/// <param name="Rain">Rain that they can use.</param>
/// <param name="Missing">What is missing to field capacity once both have come, before plants use any.</param>
/// <param name="End">What the day comes to.</param>
internal readonly record struct GroundDay(int Day, decimal Watering, decimal Rain, decimal Missing, BalanceDay End);

/// <summary>
/// A month of the water of a zone; depths are sums in mm, and watering counts as far as plants can use it. Days and seconds are added up, and multiplied
/// and divided once, so that what comes to just a limit is not off it by a last digit.
/// </summary>
/// <param name="Month">1 to 12.</param>
/// <param name="IsKnown">Whether the climate and the plants say what is used in it.</param>
internal sealed record ZoneMonth(int Month, bool IsKnown)
{
    /// <summary>The zone.</summary>
    public required Zone Zone { get; init; }

    /// <summary>Crop evapotranspiration of a day.</summary>
    public required decimal DemandOfDay { get; init; }

    /// <summary>Effective rain of the whole month.</summary>
    public required decimal RainOfMonth { get; init; }

    /// <summary>Days that it has.</summary>
    public required int Length { get; init; }

    /// <summary>Days of it that lie in the horizon.</summary>
    public int Days { get; init; }

    /// <summary>How long it is watered.</summary>
    public long Seconds { get; init; }

    /// <summary>Days that lie in a row of waterings.</summary>
    public int SeasonDays { get; init; }

    /// <summary>How long it is watered for those: a watering is for all days until the next.</summary>
    public decimal SeasonSeconds { get; init; }

    /// <summary>What runs below the roots; 0 where nothing is known of the ground.</summary>
    public decimal Percolation { get; init; }

    /// <summary>Days on which plants lack water; 0 where nothing is known of the ground.</summary>
    public int StressDays { get; init; }

    /// <summary>Watering.</summary>
    public decimal Given => WaterLedger.UsableDepth(Zone, Seconds)!.Value;

    /// <summary>Watering for days that lie in a row of waterings.</summary>
    public decimal SeasonGiven => WaterLedger.UsableDepth(Zone, SeasonSeconds)!.Value;

    /// <summary>What has to be watered on those: demand less effective rain.</summary>
    public decimal SeasonNeed => Math.Max(0, (DemandOfDay * Length) - RainOfMonth) * SeasonDays / Length;
}
