using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Simulation;
using WaterScript.Simulation.Restrictions;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Restrictions;

/// <summary>A round that is longer than the hours of a restriction, whenever it starts.</summary>
internal sealed class WindowTooShort(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("window-too-short", Severity.Error, "a round that no longer fits the hours of a restriction")
    {
        Category = RuleCategory.Restrictions,
        CanBeAccepted = true,
        Finds = "What a pass of a schedule waters in zones that a restriction binds, from the first opening to the last closing, takes longer than the " +
            "longest stretch of its\n" +
            "`allow between` hours. It is reported once for each night, in place of `outside-hours` for every zone that comes too late.",
        Matters = "A scale that lengthens every run in high summer lengthens the whole round, and one morning it no longer ends in time. No other start " +
            "helps:  it has to become shorter, or be parted.",
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone north { output 1 }
            zone south { output 2 }
            scale year { jun 100 %; jul 110 % }
            restriction town {
              allow between 22:00 and 06:00
            }
            schedule night {
              on mon
              start at 22:00
              scale year
              steps { water north, south for 4 h }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone north { output 1 }
            zone south { output 2 }
            scale year { jun 100 %; jul 110 % }
            restriction town {
              allow between 22:00 and 06:00
            }
            schedule night {
              on mon
              start at 22:00
              scale year
              steps { water north, south for 3 h 30 min }
            }
            """,
        KnownLimits = "Schedules that follow each other in one night are not added up: the one that comes too late is reported by `outside-hours`. In a " +
            "night " +
            "that a clock change\n" +
            "shortens by an hour, a round that fits all others is reported here for that night.",
    };

    public IEnumerable<Finding> Findings() => context.Restrictions.BreachesOf(BreachKind.LongerThanHours).Select(FindingFor);

    private Finding FindingFor(Breach breach)
    {
        var (needs, has) = ((long)breach.Worst, (long)breach.Allowed);
        var finding = breach.FindingFor(
            Rule,
            context,
            $"{breach.ScheduleIn(context)} needs {Phrases.Length(needs)}, has {Phrases.Length(has)}",
            $"needs {(breach.IsVaried ? "up to " : "")}{Phrases.Length(needs)}{Why(breach)}, has {Phrases.Length(has)}",
            $"{breach.Restriction.Name} allows {Phrases.Length(has)} at a stretch",
            $"Take {Phrases.Length(TooLong(breach, needs - has))} off, water zones together where the water supply allows, or use two schedules.");
        return finding with { Others = [.. finding.Others, .. ScaleOf(breach)] };
    }

    /// <summary>
    /// What to take off the times as written: where scale or trim leave less of them, more, and a second for what is rounded. Any zone may be the one.
    /// </summary>
    private long TooLong(Breach breach, long seconds)
    {
        var scale = context.Timetable.PercentOn(breach.First.Schedule, breach.WorstDay);
        var schedule = context.Site.Schedules[breach.First.Schedule];
        var shares = ZonesInSteps.Of([schedule]).Select(zone => scale * context.Site.Zones[zone].TrimPercent).Where(share => share > 0);
        return shares.Min() is var least and < AsWritten ? (long)Math.Ceiling((seconds + 1) * AsWritten / least) : seconds;
    }

    /// <summary>A scale and a trim of 100 %.</summary>
    private const decimal AsWritten = 10_000;

    /// <summary>The scale that makes it as long as that.</summary>
    private IEnumerable<Label> ScaleOf(Breach breach)
    {
        var percent = context.Timetable.PercentOn(breach.First.Schedule, breach.WorstDay);
        if (percent <= ScaleTable.AsWritten || context.ScaleLineOf(context.Site.Schedules[breach.First.Schedule], breach.WorstDay) is not { } place)
            yield break;
        yield return new Label(place, $"makes it {Phrases.Number(percent, 0)} % as long");
    }

    /// <summary>Why it is as long as that then, where it is not at other times of the year.</summary>
    private string Why(Breach breach)
    {
        var percent = context.Timetable.PercentOn(breach.First.Schedule, breach.WorstDay);
        return percent == ScaleTable.AsWritten ? "" : $" in {Phrases.Month(CivilDate.FromDayNumber(breach.WorstDay).Month)} ({Phrases.Number(percent, 0)} %)";
    }
}
