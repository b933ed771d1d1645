using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Calendar;

/// <summary>A hold or an `except` that takes no watering away: the wrong night, or the wrong year.</summary>
internal sealed class TakesNothing : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("takes-nothing", Severity.Advice, "a hold or an except that takes nothing away")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            No run of its zones falls in a `hold`; or a schedule is due on no date that its `except` line names.
            """,
        Matters = """
            Somebody counts on dry ground. With a hold for the wrong night or the wrong year the water comes all the same, into the party.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule night { every day; start at 23:30; steps { water beds for 1 h } }
            hold beds from 2026-06-12 00:30 to 2026-06-12 22:00 because "party"
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            zone beds { output 1 }
            schedule night { every day; start at 23:30; steps { water beds for 1 h } }
            hold beds from 2026-06-11 22:00 to 2026-06-12 22:00 because "party"
            """,
        KnownLimits = "A closed season that takes nothing is not reported: it makes sure. Nor are restrictions, and `except` in a schedule that is never " +
            "due. Manual schedules do not count: a hold does not touch them.",
    };

    private const int CycleDays = 146_097, WorkOfCalendar = 20_000, MostMeetings = 50_000;

    private readonly LintContext _context;
    private readonly HoldSpan[] _holds;

    public TakesNothing(LintContext context)
    {
        _context = context;
        _holds = [.. Holds.Of(context.Site, context.WallClock).All.Select(span => new HoldSpan(span.Hold, span.From, span.Until))];
    }

    public bool Observes(Zone zone) => Array.Exists(_holds, span => span.IsOver(zone));

    public void Visit(in Run run)
    {
        var zone = _context.Site.Zones[run.Zone];
        foreach (var span in _holds)
        {
            if (span.IsOver(zone)) span.See(run);
        }
    }

    public IEnumerable<Finding> Findings() =>
        _context.IsCut || _context.IsRepeated ? [] : [.. _holds.Where(IsIdle).Select(FindingFor), .. _context.Site.Schedules.SelectMany(IdleLines)];

    private bool IsIdle(HoldSpan span) => _context.Skipped.Water.All(water => water.Origin != span.Hold.Origin);

    private Finding FindingFor(HoldSpan span)
    {
        var (first, end) = (_context.Horizon.From, _context.Horizon.Until);
        var isBefore = span.Until <= _context.WallClock.StartOfDay(CivilDate.DayNumberOf(first));
        var isAfter = _context.ClockAt(span.From).Date >= end;
        return Finding.At(Rule, span.Hold.Origin, $"the hold from {MomentWords.Date(span.Hold.From.Date)} takes no watering away",
            isBefore ? "is over before the file takes effect" : isAfter ? "begins after all dates that were checked" : "no run of its zones falls in it") with
        {
            Details = isBefore ? $"The file takes effect on {MomentWords.Date(_context.Site.Effective)}."
                : isAfter ? $"Checked {MomentWords.Date(first)} to {MomentWords.Date(end.PlusDays(-1))}."
                : Nearest(span),
            Help = isBefore || isAfter ? "Correct its year, or delete it." : "Correct its dates and times, or delete it.",
        };
    }

    /// <summary><c>The run before ends Fri 12 Jun 2026 00:30, the next starts Fri 12 Jun 2026 23:30.</c></summary>
    private string Nearest(HoldSpan span) => (span.Before, span.After) switch
    {
        ({ } before, { } after) => $"The run before ends {_context.Moment(before)}, the next starts {_context.Moment(after)}.",
        ({ } before, null) => $"The last run before ends {_context.Moment(before)}; no later one was found.",
        (null, { } after) => $"The first run after starts {_context.Moment(after)}; there is none before.",
        _ => "No calendar waters its zones.",
    };

    private IEnumerable<Finding> IdleLines(Schedule schedule)
    {
        if (schedule.IsManual || !schedule.OwnExceptLines.Any()) yield break;
        var due = DayPattern.Of(schedule.Days, schedule.Season, except: [], _context.Site.Effective);
        if (!schedule.Starts.Any(start => start is StartAfter) && due.NextDue(0, int.MaxValue / 2) is null) yield break;
        foreach (var line in schedule.OwnExceptLines)
        {
            _context.Spend(WorkOfCalendar, schedule.Index);
            var from = CivilDate.DayNumberOf(_context.Site.Effective);
            if (Meet(due, DayPattern.Of(line.Days, schedule.Season, except: [], _context.Site.Effective), from)) continue;
            yield return Finding.At(Rule, line.Origin, $"schedule {schedule.Name} is due on no date that this line names", "skips nothing") with
            {
                Details = NextOf(due, from),
                Help = "Name a date on which it is due, or delete the line.",
            };
        }
    }

    private static string NextOf(DayPattern due, int from)
    {
        const int most = 3;
        string[] dates = [.. due.DueDays(from, from + CycleDays).Take(most).Select(day => MomentWords.Date(CivilDate.FromDayNumber(day).ToLocalDate()))];
        return dates.Length == 0 ? "" : $"It is due on {string.Join(", ", dates)}{(dates.Length == most ? ", …" : "")}.";
    }

    /// <summary>Whether two patterns have a day in common within the 400 years after which the calendar repeats; yes, too, where it takes too long.</summary>
    private static bool Meet(DayPattern one, DayPattern other, int from)
    {
        var day = from;
        for (var round = 0; round < MostMeetings; round++)
        {
            if (one.NextDue(day, from + CycleDays) is not { } first || other.NextDue(first, from + CycleDays) is not { } second) return false;
            if (first == second) return true;
            day = second;
        }

        return true;
    }

    /// <summary>A hold on the axis of time, and the runs of its zones next to it.</summary>
    private sealed class HoldSpan(Hold hold, long from, long until)
    {
        public Hold Hold { get; } = hold;

        public long From { get; } = from;

        public long Until { get; } = until;

        /// <summary>The end of the last run that starts before it.</summary>
        public long? Before { get; private set; }

        /// <summary>The start of the first run after it.</summary>
        public long? After { get; private set; }

        public bool IsOver(Zone zone) => Hold.Zones.IsEmpty || Hold.Zones.Contains(zone);

        public void See(in Run run)
        {
            if (run.Start < From) Before = Math.Max(Before ?? run.End, run.End);
            else After ??= run.Start;
        }
    }
}
