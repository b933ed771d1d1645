using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Answers.Usage;

/// <summary>What goes through a meter beside the watering.</summary>
internal static class OtherWater
{
    /// <summary>Litres of a date: an even part of its day, month or year.</summary>
    /// <param name="use">What is assumed.</param>
    /// <param name="day">In days since 1970-01-01.</param>
    public static Fraction On(OtherUse use, int day)
    {
        var date = CivilDate.FromDayNumber(day);
        var days = use.Per switch
        {
            ChargePeriod.Day => 1,
            ChargePeriod.Month => CivilDate.DaysInMonth(date.Year, date.Month),
            _ => CivilDate.IsLeapYear(date.Year) ? 366 : 365,
        };
        return Fraction.Of(use.Volume).DividedBy(days);
    }
}
