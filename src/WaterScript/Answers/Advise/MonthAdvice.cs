using WaterScript.Agronomy;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Advise;

/// <summary>A month of a zone; depths are in mm in the whole month, where nothing else is said.</summary>
/// <param name="Weather">The month.</param>
/// <param name="Coefficient">Crop coefficient; null where the plants are not in the ground.</param>
/// <param name="Demand">What the plants use.</param>
/// <param name="Need">That less the effective rain: what has to be watered.</param>
/// <param name="Given">What the schedules give, as far as plants can use it.</param>
/// <param name="Watering">The watering that would meet the need; null where nothing has to be watered.</param>
internal sealed record MonthAdvice(MonthWeather Weather, decimal? Coefficient, decimal Demand, decimal Need, decimal Given, AdvisedWatering? Watering)
{
    /// <summary>Calculates it.</summary>
    /// <param name="zone">A zone of which enough is known.</param>
    /// <param name="weather">The month.</param>
    /// <param name="given">What the schedules give.</param>
    internal static MonthAdvice Of(Zone zone, MonthWeather weather, decimal given)
    {
        var days = CropDemand.DaysIn(weather.Month);
        var coefficient = zone.Plants!.Coefficients[weather.Month - 1];
        var demand = CropDemand.PerDay(zone.Plants, weather) ?? 0;
        var need = CropDemand.NetPerDay(coefficient ?? 0, weather);
        return new MonthAdvice(weather, coefficient, demand * days, need * days, given, need > 0 ? AdvisedWatering.Of(zone, demand, need) : null);
    }
}

/// <summary>A watering that meets the need of a month.</summary>
/// <param name="IntervalDays">Days from one to the next, 1 or more: the most in which plants use no more than they may, were there no rain; null
/// where the ground or the roots are not known, and the rest is for one day.</param>
/// <param name="TimesADay">How often on such a day: more than once where the roots hold too little for a day.</param>
/// <param name="Depth">What one of these times brings, as far as plants can use it, in mm.</param>
/// <param name="Seconds">How long the valve is open in it.</param>
/// <param name="Cycle">The cycle in which nothing runs off; null where it can run in one piece, or the ground is not known.</param>
internal sealed record AdvisedWatering(int? IntervalDays, int TimesADay, decimal Depth, long Seconds, AdvisedCycle? Cycle)
{
    /// <summary>Nobody plans for more than a month ahead.</summary>
    private const int LongestInterval = 31;

    /// <summary>Nobody waters more often than every hour of the day.</summary>
    private const int MostTimesADay = 24;

    private const int SecondsInMinute = 60;

    /// <summary>Under this a minute more or less is too much.</summary>
    private const int LeastSecondsInMinutes = 5 * SecondsInMinute;

    private Zone? Zone { get; init; }

    internal static AdvisedWatering Of(Zone zone, decimal demand, decimal need)
    {
        var roots = RootZone.Of(zone);
        var allowed = roots?.IntervalDays(demand);
        var interval = allowed is { } days ? Math.Clamp(days, 1, LongestInterval) : (int?)null;
        var times = allowed == 0 ? TimesOf(demand, roots!.Value.Readily) : 1;
        var depth = need * (interval ?? 1) / times;
        var seconds = ScaledTime.Rounded(RunTime.SecondsForDepth(depth, zone.MillimetresPerHour!.Value, Uniformity.ShareThatCounts(zone)));
        return new AdvisedWatering(interval, times, depth, seconds, AdvisedCycle.Of(zone, seconds)) { Zone = zone };
    }

    /// <summary>The same as somebody writes it into a file: whole minutes, from five on. Pieces are no longer for that, and soak no shorter.</summary>
    internal AdvisedWatering InMinutes()
    {
        if (Seconds < LeastSecondsInMinutes) return this;
        var seconds = (Seconds + (SecondsInMinute / 2)) / SecondsInMinute * SecondsInMinute;
        return this with { Seconds = seconds, Cycle = Cycle is null ? null : AdvisedCycle.InMinutes(Zone!, seconds) };
    }

    /// <summary>The least number of parts of a day in each of which no more is used than plants may.</summary>
    private static int TimesOf(decimal demand, decimal readily) =>
        readily * MostTimesADay <= demand ? MostTimesADay : (int)Math.Ceiling(Math.Round(demand / readily, 9));
}

/// <summary>A watering in pieces.</summary>
/// <param name="Pieces">How many.</param>
/// <param name="Seconds">How long the longest of them is.</param>
/// <param name="Soak">The least time from the end of one to the next, in seconds.</param>
internal sealed record AdvisedCycle(long Pieces, long Seconds, long Soak)
{
    private const long Minute = 60;

    internal static AdvisedCycle? Of(Zone zone, long seconds)
    {
        if (Infiltration.Of(zone) is not { } ground || ground.LongestWholeRun < 1 || seconds <= ground.LongestWholeRun) return null;
        var pieces = CycleAndSoak.Pieces(seconds, ground.LongestWholeRun);
        var piece = CycleAndSoak.Piece(seconds, pieces, number: 1);
        return new AdvisedCycle(pieces, piece, ground.LeastWholeSoak(piece));
    }

    /// <summary>In whole minutes, where the ground bears a minute.</summary>
    internal static AdvisedCycle? InMinutes(Zone zone, long seconds)
    {
        if (Infiltration.Of(zone) is not { } ground || ground.LongestWholeRun < Minute) return Of(zone, seconds);
        if (seconds <= ground.LongestWholeRun) return null;
        var pieces = CycleAndSoak.Pieces(seconds, ground.LongestWholeRun / Minute * Minute);
        var piece = UpToMinute(CycleAndSoak.Piece(seconds, pieces, number: 1));
        return new AdvisedCycle(pieces, piece, UpToMinute(ground.LeastWholeSoak(piece)));
    }

    private static long UpToMinute(long seconds) => (seconds + Minute - 1) / Minute * Minute;
}
