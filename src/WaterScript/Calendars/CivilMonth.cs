using NodaTime;

namespace WaterScript.Calendars;

/// <summary>A month of a year, by its day numbers.</summary>
/// <param name="Month">1 to 12.</param>
/// <param name="First">Its first day, in days since 1970-01-01.</param>
/// <param name="Length">28 to 31.</param>
internal readonly record struct CivilMonth(int Month, int First, int Length)
{
    /// <summary>Its last day.</summary>
    public int Last => First + Length - 1;

    /// <summary>The months that reach into the days from <paramref name="first"/> to <paramref name="last"/>, in order.</summary>
    public static IEnumerable<CivilMonth> Between(int first, int last)
    {
        var (year, month, day) = CivilDate.FromDayNumber(first);
        var start = first - day + 1;
        while (start <= last)
        {
            var length = CivilDate.DaysInMonth(year, month);
            yield return new(month, start, length);
            start += length;
            (year, month) = month == 12 ? (year + 1, 1) : (year, month + 1);
        }
    }

    /// <summary>The first day of the month that is a certain weekday.</summary>
    public int FirstWeekday(IsoDayOfWeek weekday)
    {
        var ahead = (int)weekday - 1 - CivilDate.DaysAfterMonday(First);
        return First + (ahead < 0 ? ahead + 7 : ahead);
    }
}
