using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;

namespace WaterScript.Checks;

/// <summary>A schedule that waters on no date that was looked at.</summary>
internal sealed class NeverDueCheck : ICheck
{
    public IEnumerable<Finding> Find(ScheduleSurvey survey) =>
        survey.Timetable.Site.Schedules
            .Where(schedule => !schedule.IsManual && !survey.IsEverDue(schedule))
            .Select(schedule => FindingFor(schedule, survey));

    private static Finding FindingFor(Schedule schedule, ScheduleSurvey survey)
    {
        var horizon = survey.Timetable.Horizon;
        var isOver = schedule.Season?.Span is DateRange { Last: var last } && last < survey.Timetable.Site.Effective;
        return Finding.At(Rules.NeverDue, schedule.Origin, $"\"{schedule.Name}\" never waters", isOver ? "over before the site's first date" : "no date meets all of its lines") with
        {
            Severity = isOver ? Severity.Advice : Rules.NeverDue.Severity,
            Details = $"Looked at {Wording.Date(CivilDate.DayNumberOf(horizon.From))} to {Wording.Date(CivilDate.DayNumberOf(horizon.Until) - 1)}.",
            WayOut = isOver ? "Delete it." : "Loosen its days, its `from` or its `except` line, or delete it.",
        };
    }
}
