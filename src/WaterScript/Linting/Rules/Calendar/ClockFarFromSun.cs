using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Calendar;

/// <summary>A time zone of which the clock is hours away from the sun of the place.</summary>
internal sealed class ClockFarFromSun(LintContext context) : IRule
{
    /// <summary>
    /// How far clocks may be from the sun, in hours. The farthest that people live by are some 2.9 h: western China, at 76° E, has the clock of 120° E.
    /// </summary>
    private const decimal Most = 3;

    private const decimal DegreesInHour = 15;
    private const decimal HoursInDay = 24;

    public static Rule Rule { get; } = new("clock-far-from-sun", Severity.Advice, "a time zone that is not that of the place")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = "The sun of the `location`, which moves 15 degrees of longitude in an hour, and the standard time of the `timezone` on the date of " +
            "`effective` are more than 3 h apart.",
        Matters = """
            E written for W, or the time zone of another site: sunrise is then calculated for the other side of an ocean, and what should water at night waters
            at noon.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              location   39.6 N 98.1 W
              effective  2026-03-01
            }
            zone beds { output 1 }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 14 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              location   39.6 N 8.1 W
              effective  2026-03-01
            }
            zone beds { output 1 }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 14 min }
            }
            """,
        KnownLimits = "Within 3 h nothing is said, so that the time zone of a neighbouring country is not noticed. A day more or less, as beside the date " +
            "line, is none of this.",
        Sources = "360 degrees in 24 h are 15 degrees an hour. Common practice: no inhabited place has a clock that is 3 h off.",
    };

    public IEnumerable<Finding> Findings()
    {
        if (context.Site.Position is not { } position) yield break;
        var sun = (decimal)position.Longitude / DegreesInHour;
        var clock = StandardSeconds(context.Site) / 3600m;
        var apart = Apart(sun, clock);
        if (apart > Most) yield return FindingFor(position, sun, clock, apart);
    }

    /// <summary>Hours between the two, the shorter way round the day.</summary>
    private static decimal Apart(decimal sun, decimal clock)
    {
        var apart = Math.Abs(clock - sun) % HoursInDay;
        return Math.Min(apart, HoursInDay - apart);
    }

    private static int StandardSeconds(Site site) =>
        site.TimeZone.GetZoneInterval(site.TimeZone.AtStartOfDay(site.Effective).ToInstant()).StandardOffset.Seconds;

    private Finding FindingFor(Position position, decimal sun, decimal clock, decimal apart)
    {
        var site = context.Site;
        var degrees = $"{Phrases.Number(Math.Abs((decimal)position.Longitude), 1)} {(position.Longitude < 0 ? "W" : "E")}";
        return Finding.At(Rule, site.Origin, $"clock of {site.TimeZone.Id} is {Hours(apart)} h from the sun at {degrees}", "has both") with
        {
            Details = $"{degrees} / 15 degrees an hour = {Signed(sun)} h; standard time is {Signed(clock)} h: {Hours(apart)} h apart.",
            Excess = apart,
            Help = "Correct the `location`, of which E or W may be the other one, or the `timezone`.",
        };
    }

    private static string Hours(decimal hours) => Phrases.Number(hours, 2);

    private static string Signed(decimal hours) => $"{(hours < 0 ? "−" : "+")}{Hours(Math.Abs(hours))}";
}
