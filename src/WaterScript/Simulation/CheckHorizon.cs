using NodaTime;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Simulation;

/// <summary>
/// The dates that are looked at: whole years, so that every season and both clock changes are met. Two years from the
/// site's first date, stretched to a year past the latest date that a schedule names.
/// </summary>
internal static class CheckHorizon
{
    private const int LeastYears = 2;

    /// <summary>The horizon of a site.</summary>
    /// <param name="site">The site.</param>
    /// <param name="from">First date, or null for the site's first.</param>
    public static Horizon Of(Site site, LocalDate? from = null)
    {
        ArgumentNullException.ThrowIfNull(site);
        var first = from ?? site.Effective;
        var latest = site.Schedules.SelectMany(DatesOf).DefaultIfEmpty(first).Max();
        var years = LeastYears;
        while (first.PlusYears(years) < latest.PlusYears(1)) years++;
        return new Horizon(first, first.PlusYears(years));
    }

    /// <summary>Dates that bound something; the end of a range without an end is none.</summary>
    private static IEnumerable<LocalDate> DatesOf(Schedule schedule)
    {
        var sets = schedule.Days.Concat(schedule.Except).Concat(schedule.Starts.SelectMany(start => start.On));
        if (schedule.Season is { } season) sets = sets.Append(season.Span);
        var anchors = sets.OfType<IntervalDays>().Select(interval => interval.Anchor).OfType<LocalDate>();
        return anchors.Concat(sets.OfType<DateRange>().SelectMany<DateRange, LocalDate>(range =>
            range.Last == LocalDate.MaxIsoValue ? [range.First] : [range.First, range.Last]));
    }
}
