using NodaTime;
using WaterScript.Calendars;
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
        KnownLimits = "Where it is due later, within 400 years, the finding names the first date; of one that starts after another it does not.",
    };

    private const int CycleDays = 146_097, WorkOfCalendar = 20_000;

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
        if (schedule.IsExtra) return FindingForExtra(schedule);
        var horizon = context.Horizon;
        var isOver = schedule.Season?.Span is DateRange { Last: var last } && last < context.Site.Effective;
        var next = isOver ? null : NextDue(schedule);
        var heading = next is { } first
            ? $"schedule {schedule.Name} does not water before {MomentWords.Date(first)}"
            : $"schedule {schedule.Name} never waters";
        var label = next is not null ? "no earlier date fits all of its lines"
            : isOver ? "its last date lies before the site's first" : "no date fits all of its lines";
        return Finding.At(Rule, schedule.Origin, heading, label) with
        {
            Severity = isOver ? Severity.Advice : Rule.Severity,
            Details = $"Checked {MomentWords.Date(horizon.From)} to {MomentWords.Date(horizon.Until.PlusDays(-1))}.",
            Help = isOver ? "Delete it." : next is null ? "Loosen its days, its `from` or its `except` line, or delete it."
                : "Loosen its days, its `from` or its `except` line, or accept it.",
        };
    }

    /// <summary>A pass outside the calendar has one date, and one moment of it.</summary>
    private Finding FindingForExtra(Schedule extra)
    {
        var first = context.Site.Effective;
        var date = extra.Days.OfType<DateRange>().Select(range => range.First).DefaultIfEmpty(first).First();
        return Finding.At(Rule, extra.Origin, $"the extra pass of {MomentWords.Date(date)} never waters", "adds no watering") with
        {
            Details = $"The file takes effect on {MomentWords.Date(first)} at 00:00.",
            Others = [new Label(context.Site.Origin, "nothing runs before its `effective`")],
            Help = "Correct its date, or delete it.",
        };
    }

    /// <summary>The first date after those that were checked on which it is due, within the 400 years after which the calendar repeats; or null.</summary>
    private LocalDate? NextDue(Schedule schedule)
    {
        if (schedule.Starts.Any(start => start is StartAfter)) return null;
        context.Spend(WorkOfCalendar);
        var (days, until) = (DayPattern.Of(schedule, context.Site.Effective), CivilDate.DayNumberOf(context.Horizon.Until));
        return schedule.Starts.Select(start => days.NarrowedTo(start.On).NextDue(until, until + CycleDays)).Min() is { } day
            ? CivilDate.FromDayNumber(day).ToLocalDate()
            : null;
    }
}
