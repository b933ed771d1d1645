using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Answers.Usage;

/// <summary>When bills begin and end: whole local dates, counted on from the date that the tariff names, in both directions.</summary>
internal static class BillCalendar
{
    private const int MonthsInYear = 12;

    /// <summary>The bill that a date lies in.</summary>
    /// <param name="cycle">The bills.</param>
    /// <param name="day">In days since 1970-01-01.</param>
    /// <returns>Its first date, and the first after it.</returns>
    public static (int First, int End) Of(BillingCycle cycle, int day)
    {
        var (year, month, dayOfMonth) = CivilDate.FromDayNumber(day);
        var since = ((year - cycle.From.Year) * MonthsInYear) + month - cycle.From.Month - (dayOfMonth < cycle.From.Day ? 1 : 0);
        var bill = Math.DivRem(since, cycle.Months, out var rest) - (rest < 0 ? 1 : 0);
        return (StartOf(cycle, bill), StartOf(cycle, bill + 1));
    }

    /// <summary>The first date of a bill by its number, which is 0 for the one that the tariff names.</summary>
    private static int StartOf(BillingCycle cycle, int bill)
    {
        var month = (cycle.From.Year * MonthsInYear) + cycle.From.Month - 1 + (bill * cycle.Months);
        return CivilDate.DayNumberOf(month / MonthsInYear, (month % MonthsInYear) + 1, cycle.From.Day);
    }
}
