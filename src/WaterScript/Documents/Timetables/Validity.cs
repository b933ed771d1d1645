using WaterScript.Calendars;
using WaterScript.Timetables;

namespace WaterScript.Documents.Timetables;

/// <summary>When the passes of a timetable start.</summary>
/// <param name="From">First second, in Unix seconds.</param>
/// <param name="Until">The second after the last, in Unix seconds.</param>
internal readonly record struct Validity(long From, long Until)
{
    /// <summary>Of a timetable.</summary>
    public static Validity Of(Timetable timetable)
    {
        var clock = new ZoneClock(timetable.Site.TimeZone);
        return new Validity(clock.StartOfDay(CivilDate.DayNumberOf(timetable.Horizon.From)), clock.StartOfDay(CivilDate.DayNumberOf(timetable.Horizon.Until)));
    }
}
