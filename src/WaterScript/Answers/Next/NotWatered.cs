using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Answers.Next;

/// <summary>Watering that is due on a date and does not come, all for one cause.</summary>
/// <param name="Date">The date.</param>
/// <param name="By">What kind of cause; null for a <c>skip</c>.</param>
/// <param name="Origin">Where the cause is written.</param>
/// <param name="Because">The reason given there, or null.</param>
/// <param name="Schedule">The schedule that a <c>skip</c> leaves out; null for another cause.</param>
/// <param name="Zones">The zones, in the order in which they are due; empty for a <c>skip</c>.</param>
/// <param name="First">When the first of it is due, in Unix seconds; null for a <c>skip</c>.</param>
internal sealed record NotWatered(
    LocalDate Date, SkipCause? By, Location Origin, string? Because, Schedule? Schedule, ImmutableArray<Zone> Zones, long? First)
{
    /// <summary>Date by date: what is taken of the passes that start on it after a moment, then the schedules that are skipped on it.</summary>
    internal static IEnumerable<NotWatered> On(Site site, long now, Horizon dates, WorkBudget budget)
    {
        var due = new DueSchedules(site);
        for (var date = dates.From; date < dates.Until; date = date.PlusDays(1))
        {
            foreach (var taken in Taken(site, now, date, budget)) yield return taken;
            foreach (var skipped in Skipped(site, date, due, budget)) yield return skipped;
        }
    }

    private static IEnumerable<NotWatered> Taken(Site site, long now, LocalDate date, WorkBudget budget)
    {
        var skipped = new SkippedWater();
        foreach (var _ in Timetable.Of(site, Horizon.DaysFrom(date, 1), budget).Runs(skipped)) { }

        return skipped.Water.Where(water => water.Last > now).GroupBy(water => (water.By, Origin: KeptShut.CauseOf(water, site), water.Because))
            .Select(cause => new NotWatered(date, cause.Key.By, cause.Key.Origin, cause.Key.Because, Schedule: null,
                [.. cause.OrderBy(water => water.First).Select(water => water.Zone).Distinct()], cause.Min(water => water.First)))
            .OrderBy(taken => taken.First);
    }

    private static IEnumerable<NotWatered> Skipped(Site site, LocalDate date, DueSchedules due, WorkBudget budget)
    {
        var day = CivilDate.DayNumberOf(date);
        foreach (var schedule in site.Schedules)
        {
            budget.Spend(1, schedule.Index);
            var skip = schedule.Skips.FirstOrDefault(line => line.Days.OfType<DateRange>().Any(range => range.First <= date && date <= range.Last));
            if (skip is not null && due.IsDue(schedule, day) && !due.IsExcepted(schedule, day))
                yield return new NotWatered(date, By: null, skip.Origin, skip.Because, schedule, [], First: null);
        }
    }
}
