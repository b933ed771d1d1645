using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Restrictions;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts;

/// <summary>Gathers what a chart shows.</summary>
internal sealed class ChartBuilder
{
    /// <summary>A walk begins so many years before the days that are shown, or with the site: longer than any pass lasts, and long enough for a tank.</summary>
    private const int YearsBefore = 2;

    private readonly Site _site;
    private readonly ChartSpan _span;
    private readonly ZoneClock _clock;
    private readonly Timetable _timetable;
    private readonly ImmutableArray<RestrictionJudge> _restrictions;
    private readonly DaySky _sky;
    private readonly WaterWords _water;
    private readonly ImmutableArray<ChartFinding> _findings;
    private readonly ImmutableArray<ChartMark> _marks;

    private ChartBuilder(Site site, ImmutableArray<FindingMoments> findings, ChartSpan span)
    {
        (_site, _span) = (site, span);
        _clock = new ZoneClock(site.TimeZone);
        _sky = new DaySky(site, _clock);
        _water = new WaterWords(site);
        _timetable = Timetable.Of(site, Walked(), new WorkBudget(Limits.CheckWorkOf(site.SourceLength) / 2));
        _restrictions = new RestrictionMonitor(_timetable).Judges;
        (_findings, _marks) = Between(findings, NoonAfter(0), NoonAfter(span.Days));
    }

    /// <summary>The picture of a site.</summary>
    /// <param name="site">The site.</param>
    /// <param name="findings">What its check found and when; what happens on the days shown is marked.</param>
    /// <param name="span">The days to show.</param>
    /// <exception cref="WorkUsedUpException">There is too much to walk over.</exception>
    /// <exception cref="ChartTooLargeException">There are too many runs to draw.</exception>
    public static Chart Build(Site site, ImmutableArray<FindingMoments> findings, ChartSpan span)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(span);
        return new ChartBuilder(site, findings, span).Drawn();
    }

    private Chart Drawn()
    {
        var context = new SimulationContext(_timetable);
        var recorder = new ChartRecorder(context, NoonAfter(0), NoonAfter(_span.Days));
        new TimelineWalker(context, [recorder]).Go();
        recorder.Finish();
        var runs = ChartRuns(recorder.Runs);
        var curves = new DayCurves(_site, recorder, _water);
        ImmutableArray<ChartDay> days = [.. Enumerable.Range(0, _span.Days).Select(day => DayOf(day, runs, curves))];
        return new Chart(_site, days, _findings, RestrictionsOf(days));
    }

    /// <summary>The findings that happen between two instants, numbered, and when.</summary>
    private static (ImmutableArray<ChartFinding> Findings, ImmutableArray<ChartMark> Marks) Between(
        ImmutableArray<FindingMoments> findings, long from, long until)
    {
        var shown = findings.Select(finding => (finding.Finding, Moments: finding.Moments.Where(at => at >= from && at < until)))
            .Where(finding => finding.Moments.Any())
            .Select((finding, index) => (Finding: new ChartFinding(index + 1, finding.Finding), finding.Moments))
            .ToArray();
        var marks = shown.SelectMany(finding => finding.Moments.Select(at => new ChartMark(at, finding.Finding))).OrderBy(mark => mark.At)
            .ThenBy(mark => mark.Finding.Number);
        return ([.. shown.Select(finding => finding.Finding)], [.. marks]);
    }

    private ImmutableArray<string> RestrictionsOf(ImmutableArray<ChartDay> days) => days.Any(day => day.Lanes.Any(lane => lane.Forbidden.Length > 0))
        ? [.. _site.Restrictions.Select(restriction => restriction.DisplayName)]
        : [];

    private Horizon Walked()
    {
        var earliest = LocalDate.Max(_site.Effective, _span.First.PlusYears(-YearsBefore));
        return new Horizon(LocalDate.Min(earliest, _span.First), _span.Dates.Until);
    }

    private long NoonAfter(int days) => ChartSpan.NoonOf(_span.First.PlusDays(days), _clock);

    private List<ChartRun> ChartRuns(IEnumerable<Run> runs) =>
    [
        .. runs.Select((run, index) => new ChartRun(
            index + 1, run, _site.Zones[run.Zone], _site.Schedules[run.Schedule], _timetable.StepPath(run), At(run.Start), At(run.End), _water)),
    ];

    private ZonedDateTime At(long instant) => Instant.FromUnixTimeSeconds(instant).InZone(_site.TimeZone);

    private ChartDay DayOf(int index, List<ChartRun> runs, DayCurves curves)
    {
        var date = _span.First.PlusDays(index);
        var (from, until) = (NoonAfter(index), NoonAfter(index + 1));
        var touching = runs.Where(run => run.Run.End > from && run.Run.Start < until).ToLookup(run => run.Run.Zone);
        return new ChartDay(date, from, until)
        {
            Hours = [.. _sky.Hours(from, until)],
            Nights = [.. _sky.Nights(from, until)],
            Notes = [.. _sky.Notes(from, until)],
            Lanes = [.. _site.Zones.Where(zone => !zone.IsSpare)
                .Select(zone => new ChartLane(zone, LaneItems.Of(touching[zone.Index]), ForbiddenOf(zone, from, until)))],
            Curves = [.. curves.Between(from, until)],
            Marks = [.. _marks.Where(mark => mark.At >= from && mark.At < until)],
            Runs = [.. runs.Where(run => run.Run.Start < until && (run.Run.Start >= from || index == 0))],
        };
    }

    private ImmutableArray<ChartBand> ForbiddenOf(Zone zone, long from, long until)
    {
        var bands = new List<ChartBand>();
        for (var day = _clock.At(from).Day; day <= _clock.At(until).Day; day++)
        {
            var (start, end) = (Math.Max(from, _clock.StartOfDay(day)), Math.Min(until, _clock.StartOfDay(day + 1)));
            if (start >= end) continue;
            bands.AddRange(_restrictions.SelectMany(judge => judge.Forbidden(zone.Index, day, start, end))
                .Select(band => new ChartBand(band.From, band.Until)));
        }

        return [.. Joined(bands)];
    }

    private static IEnumerable<ChartBand> Joined(IEnumerable<ChartBand> bands)
    {
        ChartBand? last = null;
        foreach (var band in bands.OrderBy(band => band.From))
        {
            if (last is { } before && band.From <= before.Until)
            {
                last = before with { Until = Math.Max(before.Until, band.Until) };
                continue;
            }

            if (last is { } done) yield return done;
            last = band;
        }

        if (last is { } rest) yield return rest;
    }
}
