using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Calendar;

/// <summary>A pass of the first date that would start in the evening before it.</summary>
internal sealed class BeforeEffective(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("before-effective", Severity.Advice, "a first pass that would start before the file takes effect")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            A pass of the date of `effective`, or soon after, would start before that date begins, and is left out whole.
            """,
        Matters = """
            Who finishes by six in the morning counts on water in the first morning, too. It comes in the second.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule night { every day; finish by 00:05; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule night { every day; finish by 00:10; steps { water beds for 10 min } }
            """,
    };

    public IEnumerable<Finding> Findings() => context.DayNotes.Of(DayNoteKind.BeforeEffective)
        .Select(note => Finding.At(Rule, note.Origin,
            $"schedule {note.Schedule.Name} {Lacks(note.Schedule)} on {MomentWords.Date(note.Happens.First.Date)}",
            $"would start {context.Moment(note.Instant)}") with
        {
            Others = [new Label(context.Site.Origin, $"takes effect {MomentWords.Date(context.Site.Effective)} 00:00")],
            Happens = note.Happens,
            Help = HelpFor(note.Schedule),
        });

    /// <summary>A day sooner, unless the schedule is due then, too, and starts the evening before.</summary>
    private string HelpFor(Schedule schedule)
    {
        var sooner = context.Site.Effective.PlusDays(-1);
        var days = Timetable.Of(context.Site with { Effective = sooner }, Horizon.DaysFrom(sooner, 2)).ScheduleDays();
        var isAgain = days.Any(day => day.Schedule.Index == schedule.Index && day.Notes.Any(note => note.Kind == DayNoteKind.BeforeEffective));
        return isAgain ? "Accept it: it waters from the next time on." : $"Write `effective {sooner:uuuu'-'MM'-'dd}`, or accept it.";
    }

    private static string Lacks(Schedule schedule) => schedule.Repeat is null ? "has no pass" : "lacks its first pass";
}
