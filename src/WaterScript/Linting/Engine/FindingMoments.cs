using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Linting.Engine;

/// <summary>A finding of a report, and when it is known to happen.</summary>
/// <param name="Finding">The finding.</param>
/// <param name="Moments">In order, each once, in Unix seconds; there are others, of which nothing is known.</param>
internal sealed record FindingMoments(Finding Finding, ImmutableArray<long> Moments)
{
    /// <summary>Each date is looked at again with a share of the work of the check, so that all of them together take no longer than it.</summary>
    private const int ShareOfCheck = 64;

    /// <summary>
    /// The findings of a report that happen at some moment, each place once, in its order. A report says of each the first and the last time over all
    /// its dates, so some of those are looked at again, together and one by one; what is found only then is left out.
    /// </summary>
    /// <param name="site">The site.</param>
    /// <param name="report">What its check found.</param>
    /// <param name="dates">The dates of which more is to be known.</param>
    public static ImmutableArray<FindingMoments> Of(Site site, LintReport report, Horizon dates)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(report);
        ArgumentNullException.ThrowIfNull(dates);
        var moments = report.Findings.Where(finding => finding.Happens is not null).DistinctBy(KeyOf).ToDictionary(KeyOf, _ => new SortedSet<long>());
        if (moments.Count == 0) return [];
        var clock = new ZoneClock(site.TimeZone);
        foreach (var finding in report.Findings.Concat(FoundAgain(site, dates)))
        {
            if (finding.Happens is not { } occurrences || !moments.TryGetValue(KeyOf(finding), out var times)) continue;
            times.Add(InstantOf(occurrences.First, clock));
            times.Add(InstantOf(occurrences.Last, clock));
        }

        return [.. report.Findings.DistinctBy(KeyOf).Where(finding => moments.ContainsKey(KeyOf(finding)))
            .Select(finding => new FindingMoments(finding, [.. moments[KeyOf(finding)]]))];
    }

    /// <summary>What is found on the dates; where a single one of them is more than its share of work, the others are not tried.</summary>
    private static IEnumerable<Finding> FoundAgain(Site site, Horizon dates)
    {
        foreach (var horizon in EachAndAll(dates))
        {
            var report = Linter.CheckAgain(site, horizon, Limits.CheckWorkOf(site.SourceLength) / ShareOfCheck);
            if (report.IsCut && report.Horizon.From == report.Horizon.Until) yield break;
            foreach (var finding in report.Findings) yield return finding;
        }
    }

    private static IEnumerable<Horizon> EachAndAll(Horizon dates) =>
        Enumerable.Range(0, Period.DaysBetween(dates.From, dates.Until)).Select(day => Horizon.DaysFrom(dates.From.PlusDays(day), 1)).Prepend(dates);

    private static long InstantOf(LocalDateTime time, ZoneClock clock) =>
        clock.Read(CivilDate.DayNumberOf(time.Date), (int)(time.TimeOfDay.TickOfDay / NodaConstants.TicksPerSecond)).Instant;

    private static (Rule Rule, Location Place) KeyOf(Finding finding) => (finding.Rule, finding.Primary.Location);
}
