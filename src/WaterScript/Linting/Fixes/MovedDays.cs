using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Simulation.Water;

namespace WaterScript.Linting.Fixes;

/// <summary>A schedule on other days of the week.</summary>
/// <param name="Schedule">The schedule, as it is.</param>
/// <param name="Days">When it would water.</param>
internal sealed record MovedDays(Schedule Schedule, Weekdays Days)
{
    private const int DaysInWeek = 7;

    /// <summary>As they are written: <c>on tue, thu</c>.</summary>
    public string Words =>
        $"on {string.Join(", ", Enumerable.Range(0, DaysInWeek).Where(day => Days.HasFlag((Weekdays)(1 << day))).Select(day => DayBinder.WeekdayNames[day]))}";

    /// <summary>The edit; null where the days are not written as such a line.</summary>
    public Fix? Fix => Schedule.DayLines is [var line] && line.Origin.Text.StartsWith("on ", StringComparison.Ordinal)
        ? Fix.Unsafe($"water {Words}", line.Origin, Words)
        : null;

    /// <summary>
    /// What may be tried where more is drawn from a supply on a date than there is: one of several schedules that draw from it on that day of the
    /// week, moved by a day and by more.
    /// </summary>
    public static IEnumerable<MovedDays> Of(Site site, Supply supply, int day)
    {
        var weekday = (Weekdays)(1 << (int)(Calendars.CivilDate.FromDayNumber(day).ToLocalDate().DayOfWeek - 1));
        var drawing = site.Schedules.Where(schedule =>
            !schedule.IsManual && Waterings.ZonesIn(schedule.Steps).Any(zone => Demand.Above(zone.Supply).Any(above => above.Index == supply.Index))).ToArray();
        return drawing.Length < 2 ? [] : drawing.Reverse().Select(schedule => (schedule, Days: DaysOf(schedule))).Where(entry => entry.Days.HasFlag(weekday))
            .SelectMany(entry => MovesOf(entry.schedule, entry.Days));
    }

    /// <summary>The site with it.</summary>
    public Site In(Site site) =>
        site with
        {
            Schedules =
        site.Schedules.SetItem(Schedule.Index,
        Schedule with { Days = [new WeekdayDays(Days)], DayLines = [Schedule.DayLines[0] with { Days = [new WeekdayDays(Days)] }] })
        };

    private static IEnumerable<MovedDays> MovesOf(Schedule schedule, Weekdays days) =>
        Enumerable.Range(1, DaysInWeek - 1).Select(by => new MovedDays(schedule, Turned(days, by))).Where(moved => moved.Days != days)
            .DistinctBy(moved => moved.Days);

    /// <summary>The days of the week that a schedule names in one line, and nothing that narrows them; none where it is otherwise.</summary>
    private static Weekdays DaysOf(Schedule schedule)
    {
        if (schedule is not { DayLines: [_], Except: [] } || schedule.Starts.Any(start => !start.On.IsEmpty)
            || schedule.Days.Any(days => days is not WeekdayDays))
            return Weekdays.None;
        return schedule.Days.Cast<WeekdayDays>().Aggregate(Weekdays.None, (all, days) => all | days.Days);
    }

    private static Weekdays Turned(Weekdays days, int by) => (Weekdays)((((int)days << by) | ((int)days >> (DaysInWeek - by))) & (int)Weekdays.All);
}
