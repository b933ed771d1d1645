using WaterScript.Diagnostics;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>One zone that two schedules want at once.</summary>
internal sealed class ZoneTwice(Survey survey) : ICheck
{
    public static Rule Rule { get; } = new("zone-twice", Severity.Error, "one zone wanted twice at once")
    {
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
        Mended = """
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
        KnownLimits = """
            What comes only after the dates that are looked at is a warning, and is found where both schedules start at times of the clock; an overlap that only a clock
            change would make is not looked for there.
            Two passes of one schedule are for `pass-overlap`. Manual schedules have no times of their own and are not looked at.
            """,
    };

    public IEnumerable<Finding> Findings() =>
        [.. survey.ZoneMeetings.All.Select(FindingFor), .. survey.WholeCycle.OfZones.Select(FindingFor)];

    private Finding FindingFor(ZoneMeeting meeting)
    {
        var recurrence = new Recurrence();
        foreach (var moment in meeting.Moments) recurrence.Add(moment, survey);
        return FindingFor(meeting.Earlier, meeting.Later) with
        {
            Happens = recurrence.Happens(survey),
            Details = Wording.Zones("Both want", meeting.Zones.Select(index => survey.Site.Zones[index])),
            WayOut = WayOut(meeting.Later, meeting.LaterBy),
            Fix = MovedStart.OfOnly(survey.Site.Schedules[meeting.Later.Schedule], meeting.LaterBy)?.Fix,
        };
    }

    private Finding FindingFor(LaterMeeting meeting) => FindingFor(meeting.Earlier.Run, meeting.Later.Run) with
    {
        Severity = LaterMeeting.Severity,
        Happens = meeting.Happens(survey),
        Details = meeting.RestsOn(survey),
        WayOut = WayOut(meeting.Later.Run, meeting.Earlier.To - meeting.Later.From),
    };

    private string WayOut(in Run later, long seconds) =>
        $"Start \"{survey.Site.Schedules[later.Schedule].Name}\" {Wording.Length(seconds)} later, or let one `start after` the other.";

    private Finding FindingFor(in Run earlier, in Run later)
    {
        var (first, second, zone) = (survey.Site.Schedules[earlier.Schedule], survey.Site.Schedules[later.Schedule], survey.Site.Zones[later.Zone]);
        return Finding.At(Rule, survey.StartOf(later), $"\"{first.Name}\" and \"{second.Name}\" water {zone.Name} at once", $"waters {zone.Name} from {survey.Time(later.Start)}") with
        {
            Others = [new Label(survey.StartOf(earlier), $"waters it from {survey.Time(earlier.Start)} to {survey.Time(earlier.End)}")],
        };
    }
}
