using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Linting.Proof;
using WaterScript.Simulation;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Time;

/// <summary>A pass that begins before one of the same schedule is over.</summary>
internal sealed class PassOverlap(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("pass-overlap", Severity.Error, "a pass that begins before the one before it is over")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            A repeat, another start or the next day's start of a schedule comes while the pass before it still waters. A pass lasts from its
            first watering to the end of its last, with what lies between.
            """,
        Matters = """
            Both passes water at once: more flow than the plan shows, and zones that get less than written where both need them.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            zone lawn { output 2 }
            schedule morning {
              every day
              start at 06:00
              repeat every 15 min for 3 passes
              steps {
                water beds for 10 min
                water lawn for 10 min
              }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            zone lawn { output 2 }
            schedule morning {
              every day
              start at 06:00
              repeat every 20 min for 3 passes
              steps {
                water beds for 10 min
                water lawn for 10 min
              }
            }
            """,
        KnownLimits = "What comes only after the dates that are looked at is a warning, and is found where the schedule starts at times of the clock; an " +
            "overlap that only a\n" +
            "clock change would make is not looked for there.",
        FixSafety = "Lengthens the repeat interval to the longest pass. Unsafe: later passes move, and with `until` there are fewer of them.",
    };

    public IEnumerable<Finding> Findings() =>
        [.. context.PassMeetings.All.Select(FindingFor), .. context.WholeCycle.WithThemselves(context.PassMeetings.Has).Select(FindingFor)];

    private Finding FindingFor(PassMeeting meeting)
    {
        var schedule = context.Site.Schedules[meeting.Schedule];
        var (earlier, later) = (meeting.Earlier!, meeting.Later!);
        var tooSoon = Phrases.Length(earlier.End - later.First);
        var start = context.StartOf(meeting.Schedule, earlier.Start);
        return Finding.At(Rule, meeting.Cause, $"a pass of schedule {schedule.Name} begins before the last one ends", $"{tooSoon} too soon") with
        {
            Others = start == meeting.Cause
                ? []
                : [new Label(start, $"the pass before waters {context.Time(earlier.First)} to {context.Time(earlier.End)}")],
            Happens = meeting.OccurrenceCounter.Happens(context),
            Help = meeting.Repeat is null
                ? $"Move one of the starts by {tooSoon} or more, or shorten the steps."
                : $"Repeat every {Phrases.Length(IntervalFor(meeting))}, or shorten the steps.",
            Fix = meeting.Repeat is null ? null : LongerRepeat.To(meeting.Repeat, IntervalFor(meeting)),
        };
    }

    private Finding FindingFor(LaterMeeting meeting)
    {
        var (earlier, later) = (meeting.Earlier, meeting.Later);
        var schedule = context.Site.Schedules[later.Run.Schedule];
        var tooSoon = Phrases.Length(earlier.To - later.From);
        var (start, before) = (context.StartOf(later.Run), context.StartOf(earlier.Run));
        return Finding.At(Rule, start, $"a pass of schedule {schedule.Name} begins before the last one ends", $"{tooSoon} too soon") with
        {
            Severity = LaterMeeting.Severity,
            Others = start == before ? [] : [new Label(before, $"the pass before waters {context.Time(earlier.From)} to {context.Time(earlier.To)}")],
            Happens = meeting.Happens(context),
            Details = meeting.RestsOn(context),
            Help = $"Move one of the starts by {tooSoon} or more, or shorten the steps.",
        };
    }

    /// <summary>A pass may overlap several later ones, so the interval is that of the longest pass, not the interval and what is missing.</summary>
    private long IntervalFor(PassMeeting meeting) => Math.Max(context.Timetable.LongestSecondsOf(meeting.Schedule), 1);
}
