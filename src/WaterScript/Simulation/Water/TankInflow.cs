using WaterScript.Calendars;
using WaterScript.Language;
using WaterScript.Model;

namespace WaterScript.Simulation.Water;

/// <summary>What flows into a tank: its refill, and the rain that its roof catches, spread evenly over each month.</summary>
internal sealed class TankInflow(Supply supply, SimulationContext context)
{
    private const decimal SecondsInMinute = 60;
    private readonly decimal _refill = supply.Refill?.InBase ?? 0;
    private (long From, long Until, decimal LitresPerMinute) _month;

    /// <summary>The statement that lacks for it to be known; null where it is.</summary>
    public static string? LacksFor(Supply supply, Site site)
    {
        if (supply.CatchmentArea is null) return supply.Refill is null ? "refill" : null;
        if (site.Climate is not { } climate) return "climate";
        return climate.Months.Any(month => month?.Rain is null) ? "rain" : null;
    }

    /// <summary>What the refill gives where it is on, in L/min.</summary>
    public decimal Refill => _refill;

    /// <summary>The flow of the rain at an instant, in L/min.</summary>
    /// <param name="instant">In Unix seconds.</param>
    /// <param name="until">The second from which on it may be another.</param>
    public decimal RainAt(long instant, out long until)
    {
        until = long.MaxValue;
        if (supply.CatchmentArea is null || context.Manual is not null) return 0;
        if (instant < _month.From || instant >= _month.Until) _month = MonthOf(instant);
        until = _month.Until;
        return _month.LitresPerMinute;
    }

    /// <summary>1 mm on 1 m² is 1 L. A month with a clock change has an hour more or less.</summary>
    private (long From, long Until, decimal LitresPerMinute) MonthOf(long instant)
    {
        var (year, month, day) = CivilDate.FromDayNumber(context.DayOf(instant));
        var first = CivilDate.DayNumberOf(year, month, 1);
        var (from, until) = (context.WallClock.StartOfDay(first), context.WallClock.StartOfDay(first + CivilDate.DaysInMonth(year, month)));
        var litres = context.Site.Climate!.Months[month - 1]!.Rain!.Value.InBase * supply.CatchmentArea!.Value.InBase * (supply.CatchmentPercent ?? 100m) / 100;
        return (Math.Min(from, instant), Math.Max(until, instant + 1), litres * SecondsInMinute / (until - from));
    }
}
