using NodaTime;

namespace WaterScript.Calendars;

/// <summary>Weeks that begin on a certain weekday.</summary>
internal readonly struct WeeksFrom(IsoDayOfWeek first)
{
    /// <summary>The first day of the week that a day lies in, in days since 1970-01-01.</summary>
    public int WeekOf(int day)
    {
        var since = CivilDate.DaysAfterMonday(day) - ((int)first - 1);
        return day - (since < 0 ? since + 7 : since);
    }
}
