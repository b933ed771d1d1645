using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;

namespace WaterScript.Linting.Rules.Time;

/// <summary>Odd days that follow each other.</summary>
internal sealed class ConsecutiveDays(LintContext context) : IRule, IDayObserver
{
    public static Rule Rule { get; } = new("consecutive-days", Severity.Advice, "odd days that follow each other")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            A schedule on odd days waters on the 31st and on the 1st after it: seven times a year, and in a leap year on 29 February and 1 March too.
            """,
        Matters = """
            Who waters every other day expects a dry day between; where odd days are the rule of a town, the 31st is often left out of it.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            schedule morning {
              on odd days
              start at 06:00
              steps { water beds for 10 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            schedule morning {
              on odd days
              except days 31 of month
              except 29 feb
              start at 06:00
              steps { water beds for 10 min }
            }
            """,
        KnownLimits = """
            A schedule whose `on` lines name other days too is meant to water on them, and is not looked at.
            """,
    };

    private readonly int[] _last = new int[context.Site.Schedules.Length];
    private readonly Dictionary<int, OccurrenceCounter> _found = [];

    public void Visit(in ScheduleDay day)
    {
        if (day.Passes.All(pass => pass.Silence is not null) || day.Schedule.Days is not [OddEvenDays { IsOdd: true }]) return;
        ref var last = ref _last[day.Schedule.Index];
        if (last == day.Day - 1)
        {
            if (!_found.TryGetValue(day.Schedule.Index, out var found)) _found[day.Schedule.Index] = found = new OccurrenceCounter();
            found.Add(context.WallClock.StartOfDay(day.Day), day.Day);
        }

        last = day.Day;
    }

    public IEnumerable<Finding> Findings() => _found.Select(entry => FindingFor(context.Site.Schedules[entry.Key], entry.Value));

    private Finding FindingFor(Schedule schedule, OccurrenceCounter found) =>
        Finding.At(Rule, schedule.Origin, $"schedule {schedule.Name} waters on two days in a row", "the last day of a month and the 1st are both odd") with
        {
            Happens = found.Happens(context) with { IsWholeDays = true },
            Help = "Add two lines: `except days 31 of month` and `except 29 feb`.",
        };
}
