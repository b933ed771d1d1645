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
    private double _depletion;
    private int _next;

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
    public static IReadOnlyList<ZoneMonth> Of(Zone zone, IReadOnlyList<WateredDay> days, Horizon horizon, ImmutableArray<MonthWeather?> year)
    {
        var balance = new ZoneBalance(zone, days, year);
        var (first, end) = (CivilDate.DayNumberOf(horizon.From), CivilDate.DayNumberOf(horizon.Until));
        return [.. CivilMonth.Between(first, end - 1).Select(month => balance.MonthFrom(month, Math.Max(first, month.First), Math.Min(end - 1, month.Last)))];
    }

    private ZoneMonth MonthFrom(CivilMonth month, int first, int last)
    {
        var weather = _year[month.Month - 1];
        var demand = weather is null ? null : CropDemand.PerDay(_zone.Plants!, weather);
        var rain = weather is null ? 0 : (double)weather.EffectiveRain / month.Length;
        var sum = new ZoneMonth(month.Month, IsKnown: demand is not null);
        for (var day = first; day <= last; day++) sum = DayOf(day, sum, (double)(demand ?? 0), rain);
        return sum;
    }

    private ZoneMonth DayOf(int day, ZoneMonth sum, double demand, double rain)
    {
        while (_next < _days.Count && _days[_next].Day < day) _next++;
        var given = _next < _days.Count && _days[_next].Day == day ? (double)WaterLedger.UsableDepth(_zone, _days[_next].Seconds)! : 0;
        var isInSeason = IsInSeason(day);
        sum = sum with
        {
            Days = sum.Days + 1,
            Waterings = sum.Waterings + (given > 0 ? 1 : 0),
            Demand = sum.Demand + demand,
            Rain = sum.Rain + rain,
            Given = sum.Given + given,
            SeasonDays = sum.SeasonDays + (isInSeason ? 1 : 0),
            SeasonGiven = sum.SeasonGiven + (isInSeason ? given : 0),
        };
        if (_roots is not { } roots) return sum;
        var balance = roots.Next(_depletion, rain + given, demand);
        _depletion = balance.Depletion;
        return sum with
        {
            Percolation = sum.Percolation + balance.Percolation,
            StressDays = sum.StressDays + (balance.IsStressed ? 1 : 0),
        };
    }

    /// <summary>Whether a date lies in a row of waterings: from the first of them until the next after the last would have been due.</summary>
    private bool IsInSeason(int day)
    {
        var next = _next < _days.Count ? _days[_next].Day : int.MaxValue;
        var last = next == day ? _next : _next - 1;
        if (last < 0) return false;
        var goesOn = last + 1 < _days.Count && _days[last + 1].Day - _days[last].Day <= SeasonGap;
        if (goesOn) return true;
        var before = last > 0 ? _days[last].Day - _days[last - 1].Day : SeasonGap + 1;
        return before <= SeasonGap && day < _days[last].Day + before;
    }
}

/// <summary>A month of the water of a zone; depths are sums in mm, and watering counts as far as plants can use it.</summary>
/// <param name="Month">1 to 12.</param>
/// <param name="IsKnown">Whether the climate and the plants say what is used in it.</param>
internal sealed record ZoneMonth(int Month, bool IsKnown)
{
    /// <summary>Days of it that lie in the horizon.</summary>
    public int Days { get; init; }

    /// <summary>Days on which it is watered.</summary>
    public int Waterings { get; init; }

    /// <summary>Crop evapotranspiration.</summary>
    public double Demand { get; init; }

    /// <summary>Effective rain.</summary>
    public double Rain { get; init; }

    /// <summary>Watering.</summary>
    public double Given { get; init; }

    /// <summary>Days that lie in a row of waterings.</summary>
    public int SeasonDays { get; init; }

    /// <summary>Watering on those.</summary>
    public double SeasonGiven { get; init; }

    /// <summary>What runs below the roots; 0 where nothing is known of the ground.</summary>
    public double Percolation { get; init; }

    /// <summary>Days on which plants lack water; 0 where nothing is known of the ground.</summary>
    public int StressDays { get; init; }

    /// <summary>What has to be watered: demand less effective rain.</summary>
    public double Need => Math.Max(0, Demand - Rain);

    /// <summary>That of the days that lie in a row of waterings.</summary>
    public double SeasonNeed => Days == 0 ? 0 : Need * SeasonDays / Days;
}
