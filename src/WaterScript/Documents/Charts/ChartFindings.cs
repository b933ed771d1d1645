using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Documents.Charts;

/// <summary>
/// When findings happen on the days of a chart. A report says of each the first and the last time over all its dates, so the dates of
/// the chart are looked at again, together and one by one, and what the report holds too is marked.
/// </summary>
internal sealed class ChartFindings(Site site, LintReport report, ChartSpan span, ZoneClock clock)
{
    /// <summary>Each date is looked at again with a share of the work of the check, so that all of them together take no longer than it.</summary>
    private const int ShareOfCheck = 64;

    /// <summary>The findings that happen between two instants, numbered, and when.</summary>
    public (ImmutableArray<ChartFinding> Findings, ImmutableArray<ChartMark> Marks) Between(long from, long until)
    {
        var moments = report.Findings.Where(finding => finding.Happens is not null).DistinctBy(KeyOf).ToDictionary(KeyOf, _ => new SortedSet<long>());
        foreach (var finding in report.Findings.Concat(Horizons().SelectMany(horizon => Linter.Check(site, horizon, Limits.CheckWorkOf(site.SourceLength) / ShareOfCheck).Findings)))
        {
            if (finding.Happens is { } occurrences && moments.TryGetValue(KeyOf(finding), out var times)) times.UnionWith(TimesOf(occurrences).Where(time => time >= from && time < until));
        }

        var shown = report.Findings.DistinctBy(KeyOf).Where(finding => moments.TryGetValue(KeyOf(finding), out var times) && times.Count > 0);
        ImmutableArray<ChartFinding> findings = [.. shown.Select((finding, index) => new ChartFinding(index + 1, finding))];
        return (findings, [.. findings.SelectMany(finding => moments[KeyOf(finding.Finding)].Select(time => new ChartMark(time, finding))).OrderBy(mark => mark.At).ThenBy(mark => mark.Finding.Number)]);
    }

    private IEnumerable<Horizon> Horizons()
    {
        if (report.Findings.All(finding => finding.Happens is null)) return [];
        var days = Period.DaysBetween(span.Dates.From, span.Dates.Until);
        return Enumerable.Range(0, days).Select(day => Horizon.DaysFrom(span.First.PlusDays(day), 1)).Prepend(span.Dates);
    }

    private IEnumerable<long> TimesOf(Occurrences occurrences) => [InstantOf(occurrences.First), InstantOf(occurrences.Last)];

    private long InstantOf(LocalDateTime time) => clock.Read(CivilDate.DayNumberOf(time.Date), (int)(time.TimeOfDay.TickOfDay / NodaConstants.TicksPerSecond)).Instant;

    private static (Rule Rule, Location Place) KeyOf(Finding finding) => (finding.Rule, finding.Primary.Location);
}
