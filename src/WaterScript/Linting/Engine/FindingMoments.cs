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
    /// <summary>Dates beyond those of the check are looked at with a share of its work.</summary>
    private const int ShareOfCheck = 16;

    /// <summary>
    /// The findings of a report that happen at some moment, each place once, in its order. Dates beyond those of the report are looked at again; what is
    /// found only then is left out.
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
        foreach (var finding in report.Findings.Concat(FoundAgain(site, report.Horizon, dates)))
        {
            if (finding.Happens is not { } occurrences || !moments.TryGetValue(KeyOf(finding), out var times)) continue;
            if (!occurrences.IsWholeDays) times.UnionWith([InstantOf(occurrences.First, clock), InstantOf(occurrences.Last, clock)]);
            times.UnionWith(occurrences.Moments);
        }

        return [.. report.Findings.DistinctBy(KeyOf).Where(finding => moments.ContainsKey(KeyOf(finding)))
            .Select(finding => new FindingMoments(finding, [.. moments[KeyOf(finding)]]))];
    }

    private static ImmutableArray<Finding> FoundAgain(Site site, Horizon known, Horizon dates) => dates.From >= known.From && dates.Until <= known.Until
        ? []
        : Linter.CheckAgain(site, dates, Limits.CheckWorkOf(site.SourceLength) / ShareOfCheck).Findings;

    private static long InstantOf(LocalDateTime time, ZoneClock clock) =>
        clock.Read(CivilDate.DayNumberOf(time.Date), (int)(time.TimeOfDay.TickOfDay / NodaConstants.TicksPerSecond)).Instant;

    private static (Rule Rule, Location Place) KeyOf(Finding finding) => (finding.Rule, finding.Primary.Location);
}
