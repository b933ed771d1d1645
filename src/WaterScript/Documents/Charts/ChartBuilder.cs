using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
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
    private readonly LintContext _context;
    private readonly ChartRecorder _watch;
    private readonly DaySky _sky;
    private readonly WaterWords _water;
    private readonly ImmutableArray<ChartFinding> _findings;
    private readonly ImmutableArray<ChartMark> _marks;

    public ChartBuilder(Site site, LintReport report, ChartSpan span)
    {
        (_site, _span) = (site, span);
        _clock = new ZoneClock(site.TimeZone);
        _sky = new DaySky(site, _clock);
        _water = new WaterWords(site);
        _context = new LintContext(Timetable.Of(site, Walked(), new WorkBudget(Limits.CheckWorkOf(site.SourceLength) / 2)));
        _watch = new ChartRecorder(_context, NoonAfter(0), NoonAfter(span.Days));
        (_findings, _marks) = new ChartFindings(site, report, span, _clock).Between(NoonAfter(0), NoonAfter(span.Days));
    }

    public Chart Build()
    {
        new TimelineWalker(_context, [_watch]).Go();
        _watch.Finish();
        var runs = ChartRuns();
        ImmutableArray<ChartDay> days = [.. Enumerable.Range(0, _span.Days).Select(day => DayOf(day, runs))];
        return new Chart(_site, days, _findings, RestrictionsOf(days));
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

    private List<ChartRun> ChartRuns() =>
    [
        .. _watch.Runs.Select((run, index) => new ChartRun(
            index + 1, run, _site.Zones[run.Zone], _site.Schedules[run.Schedule], _context.Timetable.StepPath(run), At(run.Start), At(run.End), _water)),
    ];

    private ZonedDateTime At(long instant) => Instant.FromUnixTimeSeconds(instant).InZone(_site.TimeZone);

    private ChartDay DayOf(int index, List<ChartRun> runs)
    {
        var date = _span.First.PlusDays(index);
        var (from, until) = (NoonAfter(index), NoonAfter(index + 1));
        var touching = runs.Where(run => run.Run.End > from && run.Run.Start < until).ToLookup(run => run.Run.Zone);
        return new ChartDay(date, from, until)
        {
            Hours = [.. _sky.Hours(from, until)],
            Nights = [.. _sky.Nights(from, until)],
            Notes = [.. _sky.Notes(from, until)],
            Lanes = [.. _site.Zones.Where(zone => !zone.IsSpare).Select(zone => new ChartLane(zone, LaneItems.Of(touching[zone.Index]), ForbiddenOf(zone, from, until)))],
            Curves = [.. new DayCurves(_site, _watch, _water).Between(from, until)],
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
            bands.AddRange(_context.Restrictions.Judges.SelectMany(judge => judge.Forbidden(zone.Index, day, start, end)).Select(band => new ChartBand(band.From, band.Until)));
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
