using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Linting.Proof;
using WaterScript.Simulation;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Time;

/// <summary>One zone that two schedules use at once.</summary>
internal sealed class ZoneTwice(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("zone-twice", Severity.Error, "one zone needed twice at once")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            Two schedules water one zone at the same time. Two runs that only touch are none.
            """,
        Matters = """
            A valve cannot be opened twice: the zone gets the longer of the two, not both, and whoever counts on twice the water finds it dry.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 20 min }
            }
            schedule top-up {
              on sat
              start at 06:10
              steps { water beds for 5 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 20 min }
            }
            schedule top-up {
              on sat
              start at 06:20
              steps { water beds for 5 min }
            }
            """,
        FixSafety = "Moves the later start to where the other one is over. Unsafe: the watering comes later, and may meet another.",
        KnownLimits = "What comes only after the dates that are looked at is a warning, and is found where both schedules start at times of the clock; an " +
            "overlap that only a clock\n" +
            "change would make is not looked for there.\n" +
            "Two passes of one schedule are for `pass-overlap`. Manual schedules have no times of their own and are not looked at.",
    };

    public IEnumerable<Finding> Findings() =>
        [.. context.ZoneMeetings.All.Select(FindingFor), .. context.WholeCycle.OfZones.Select(FindingFor)];

    private Finding FindingFor(ZoneMeeting meeting)
    {
        var occurrenceCounter = new OccurrenceCounter();
        foreach (var moment in meeting.Moments) occurrenceCounter.Add(moment, context);
        return FindingFor(meeting.Earlier, meeting.Later) with
        {
            Happens = occurrenceCounter.Happens(context),
            Details = Phrases.Zones("Both need", meeting.Zones.Select(index => context.Site.Zones[index])),
            Help = Help(meeting.Later, meeting.LaterBy),
            Fix = MovedStart.OfOnly(context.Site.Schedules[meeting.Later.Schedule], meeting.LaterBy)?.Fix,
            OtherFix = FollowingStart.Of(context.Site.Schedules[meeting.Later.Schedule], context.Site.Schedules[meeting.Earlier.Schedule]),
        };
    }

    private Finding FindingFor(LaterMeeting meeting) => FindingFor(meeting.Earlier.Run, meeting.Later.Run) with
    {
        Severity = LaterMeeting.Severity,
        Happens = meeting.Happens(context),
        Details = meeting.RestsOn(context),
        Help = Help(meeting.Later.Run, meeting.Earlier.To - meeting.Later.From),
    };

    private string Help(in Run later, long seconds) =>
        $"Start {context.Site.Schedules[later.Schedule].Name} {Phrases.Length(seconds)} later.";

    private Finding FindingFor(in Run earlier, in Run later)
    {
        var (first, second, zone) = (context.Site.Schedules[earlier.Schedule], context.Site.Schedules[later.Schedule], context.Site.Zones[later.Zone]);
        return Finding.At(Rule, context.StartOf(later), $"schedules {first.Name} and {second.Name} water zone {zone.Name} at once",
            $"{second.Name} waters it from {context.Time(later.Start)}") with
        {
            Others = [new Label(context.StartOf(earlier), $"{first.Name} waters it {context.Time(earlier.Start)} to {context.Time(earlier.End)}")],
        };
    }
}
