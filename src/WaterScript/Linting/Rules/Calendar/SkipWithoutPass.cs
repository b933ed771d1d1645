using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Calendar;

/// <summary>A `skip` for dates on which its schedule has no pass: the wrong night, or the wrong year.</summary>
internal sealed class SkipWithoutPass(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("skip-without-pass", Severity.Warning, "a skip for dates without a pass")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            A `skip` names a date, or a stretch of dates, on none of which its schedule has a pass. A date that an `except` or an earlier `skip` takes
            has none any more.
            """,
        Matters = """
            Somebody counts on dry ground on that date. A pass belongs to the date of its schedule: one at sunset + 6 h is the evening's, also
            where it starts after midnight, so a skip for the next date leaves it where it is.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01; location 38.7 N 9.1 W 30 m }
            zone beds { output 1 }
            schedule night { on fri; start at sunset + 6 h; steps { water beds for 40 min } }
            skip night on 2026-07-04 because "the fair is set up early"
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01; location 38.7 N 9.1 W 30 m }
            zone beds { output 1 }
            schedule night { on fri; start at sunset + 6 h; steps { water beds for 40 min } }
            skip night on 2026-07-03 because "the fair is set up early"
            """,
        KnownLimits = "Dates after those that are checked are not looked at.",
    };

    private const int WorkOfCalendar = 20_000;

    private readonly DueSchedules _due = new(context.Site);

    public IEnumerable<Finding> Findings() => context.IsCut ? [] : context.Site.Schedules.SelectMany(FindingsOf);

    private IEnumerable<Finding> FindingsOf(Schedule schedule)
    {
        var before = schedule.OwnExceptLines.SelectMany(line => line.Days).ToList();
        foreach (var skip in schedule.Skips)
        {
            foreach (var range in skip.Days.OfType<DateRange>())
            {
                context.Spend(WorkOfCalendar, schedule.Index);
                var taken = DayPattern.Of([.. before], schedule.Season, except: [], context.Site.Effective);
                var isTaken = before.Count == 0 ? (Func<int, bool>)(_ => false) : taken.IsDue;
                if (range.Last < context.Horizon.Until && !DatesOf(range).Any(day => _due.IsDue(schedule, day) && !isTaken(day)))
                    yield return FindingFor(schedule, skip, range, isTaken);
                before.Add(range);
            }
        }
    }

    /// <summary>The dates of a stretch from the first one of the site on.</summary>
    private IEnumerable<int> DatesOf(DateRange range)
    {
        var first = Math.Max(CivilDate.DayNumberOf(range.First), CivilDate.DayNumberOf(context.Site.Effective));
        for (var day = first; day <= CivilDate.DayNumberOf(range.Last); day++) yield return day;
    }

    private Finding FindingFor(Schedule schedule, DayLine skip, DateRange range, Func<int, bool> isTaken)
    {
        var dates = MomentWords.Date(range.First) + (range.Last > range.First ? $" to {MomentWords.Date(range.Last)}" : "");
        return Finding.At(Rule, skip.Origin, $"schedule {schedule.Name} has no pass on {dates}", "skips nothing") with
        {
            Others = [new Label(schedule.Origin, "this schedule")],
            Details = Nearest(schedule, range, isTaken),
            Help = "Name the date that the pass belongs to, or delete the line.",
        };
    }

    /// <summary><c>The pass before belongs to Fri 3 Jul 2026, the next to Fri 10 Jul 2026.</c></summary>
    private string Nearest(Schedule schedule, DateRange range, Func<int, bool> isTaken)
    {
        const int furthest = 400;
        var (first, last) = (CivilDate.DayNumberOf(range.First), CivilDate.DayNumberOf(range.Last));
        int? Find(int step) => Enumerable.Range(1, furthest).Select(days => (step < 0 ? first : last) + (step * days)).Cast<int?>()
            .FirstOrDefault(day => _due.IsDue(schedule, day!.Value) && !isTaken(day.Value));
        return (Find(-1), Find(1)) switch
        {
            ({ } before, { } after) => $"The pass before belongs to {DateOf(before)}, the next to {DateOf(after)}.",
            ({ } before, null) => $"The pass before belongs to {DateOf(before)}; there is no later one within {furthest} days.",
            (null, { } after) => $"The next pass belongs to {DateOf(after)}; there is none before.",
            _ => "",
        };
    }

    private static string DateOf(int day) => MomentWords.Date(CivilDate.FromDayNumber(day).ToLocalDate());
}
