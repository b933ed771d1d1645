using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Simulation.Restrictions;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Answers.Next;

/// <summary>
/// Days or hours of a restriction that allow no water, now or later on the same date. It shuts nothing: what breaks it is for a check to say.
/// </summary>
/// <param name="Restriction">The restriction.</param>
/// <param name="Origin">The line that says so.</param>
/// <param name="Zones">The zones that may not be watered, in order of the file.</param>
/// <param name="From">Since when, in Unix seconds; the instant that was asked for where it is so already.</param>
/// <param name="Until">The first instant at which water is allowed again; null where that is more than a year away.</param>
internal sealed record NotAllowed(Restriction Restriction, Location Origin, ImmutableArray<Zone> Zones, long From, long? Until)
{
    private const int DaysAhead = 366;

    /// <summary>What is not allowed at an instant or after it on its date, in order of the restrictions, then of time.</summary>
    internal static IEnumerable<NotAllowed> At(Timetable timetable, long now)
    {
        var site = timetable.Site;
        var clock = new ZoneClock(site.TimeZone);
        return new RestrictionMonitor(timetable).Judges.Zip(site.Restrictions).SelectMany(pair => Of(pair.First, pair.Second, site, clock, now));
    }

    private static IEnumerable<NotAllowed> Of(RestrictionJudge judge, Restriction restriction, Site site, ZoneClock clock, long now) =>
        from zone in site.Zones
        where !zone.IsSpare
        from band in Bands(judge, zone.Index, clock, now)
        group zone by band into zones
        orderby zones.Key.From
        select new NotAllowed(restriction, zones.Key.Line, [.. zones], zones.Key.From, zones.Key.Until);

    private static IEnumerable<(Location Line, long From, long? Until)> Bands(RestrictionJudge judge, int zone, ZoneClock clock, long now)
    {
        var today = clock.At(now).Day;
        return judge.Forbidden(zone, today, now, clock.StartOfDay(today + 1))
            .Select(band => (judge.ForbiddingLine(today), band.From, EndOf(judge, zone, clock, today, band.Until)));
    }

    /// <summary>Where a time that ends with its date goes on until.</summary>
    private static long? EndOf(RestrictionJudge judge, int zone, ZoneClock clock, int day, long until)
    {
        for (var next = day + 1; next < day + DaysAhead; next++)
        {
            if (until < clock.StartOfDay(next)) return until;
            if (judge.Forbidden(zone, next, until, clock.StartOfDay(next + 1)).FirstOrDefault() is not { From: > 0 } band || band.From > until) return until;
            until = band.Until;
        }

        return null;
    }
}
