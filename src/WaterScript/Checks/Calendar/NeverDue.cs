using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>A schedule that waters on no day.</summary>
internal sealed class NeverDue(Survey survey) : ISeesDays
{
    public static Rule Rule { get; } = new("never-due", Severity.Warning, "a schedule that waters on no day")
    {
        CanBeAccepted = true,
        Finds = """
            No day of the horizon meets all of the schedule's lines.
            """,
    };

    private readonly HashSet<int> _due = [];

    public void See(in ScheduleDay day)
    {
        if (day.Passes.Count > 0) _due.Add(day.Schedule.Index);
    }

    public IEnumerable<Finding> Findings() => survey.Site.Schedules
        .Where(schedule => !schedule.IsManual && !_due.Contains(schedule.Index))
        .Select(FindingFor);

    private Finding FindingFor(Schedule schedule)
    {
        var horizon = survey.Horizon;
        var isOver = schedule.Season?.Span is DateRange { Last: var last } && last < survey.Site.Effective;
        return Finding.At(Rule, schedule.Origin, $"\"{schedule.Name}\" never waters", isOver ? "over before the site's first date" : "no date meets all of its lines") with
        {
            Severity = isOver ? Severity.Advice : Rule.Severity,
            Details = $"Looked at {MomentWords.Date(horizon.From)} to {MomentWords.Date(horizon.Until.PlusDays(-1))}.",
            WayOut = isOver ? "Delete it." : "Loosen its days, its `from` or its `except` line, or delete it.",
        };
    }
}
