using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Calendar;

/// <summary>A schedule that waters on no day.</summary>
internal sealed class NeverDue(LintContext context) : IRule, IDayObserver
{
    public static Rule Rule { get; } = new("never-due", Severity.Warning, "a schedule that waters on no day")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            No day of the horizon meets all of the schedule's lines.
            """,
        Matters = """
            Whoever wrote it counts on water that never comes.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { on mon; from 2026-06-02 to 2026-06-07; start at 20:00; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule evening { on mon; from 2026-06-01 to 2026-06-07; start at 20:00; steps { water beds for 10 min } }
            """,
        KnownLimits = "A day beyond the horizon is not looked at; the finding says what was.",
    };

    private readonly HashSet<int> _due = [];

    public void Visit(in ScheduleDay day)
    {
        if (day.Passes.Count > 0) _due.Add(day.Schedule.Index);
    }

    public IEnumerable<Finding> Findings() => context.Site.Schedules
        .Where(schedule => !schedule.IsManual && !_due.Contains(schedule.Index))
        .Select(FindingFor);

    private Finding FindingFor(Schedule schedule)
    {
        var horizon = context.Horizon;
        var isOver = schedule.Season?.Span is DateRange { Last: var last } && last < context.Site.Effective;
        return Finding.At(Rule, schedule.Origin, $"schedule {schedule.Name} never waters",
            isOver ? "its last date lies before the site's first" : "no date fits all of its lines") with
        {
            Severity = isOver ? Severity.Advice : Rule.Severity,
            Details = $"Checked {MomentWords.Date(horizon.From)} to {MomentWords.Date(horizon.Until.PlusDays(-1))}.",
            Help = isOver ? "Delete it." : "Loosen its days, its `from` or its `except` line, or delete it.",
        };
    }
}
