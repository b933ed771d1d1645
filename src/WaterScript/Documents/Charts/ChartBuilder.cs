using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
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
    private readonly ImmutableArray<(RestrictionJudge Judge, Restriction Restriction)> _restrictions;
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
        _restrictions = [.. new RestrictionMonitor(_timetable).Each];
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
        var runs = ChartRuns(recorder.Runs, context.Steps);
        var held = new HeldWater(_timetable, NoonAfter(0), NoonAfter(_span.Days)).All();
        ImmutableArray<ChartDay> days = [.. Enumerable.Range(0, _span.Days).Select(day => DayOf(day, runs, held, recorder))];
        return new Chart(_site, days, _findings);
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

    private Horizon Walked()
    {
        var earliest = LocalDate.Max(_site.Effective, _span.First.PlusYears(-YearsBefore));
        return new Horizon(LocalDate.Min(earliest, _span.First), _span.Dates.Until);
    }

    private long NoonAfter(int days) => ChartSpan.NoonOf(_span.First.PlusDays(days), _clock);

    private List<ChartRun> ChartRuns(IEnumerable<Run> runs, StepPlaces steps) =>
    [
        .. runs.Select((run, index) => new ChartRun(
            index + 1, run, _site.Zones[run.Zone], _site.Schedules[run.Schedule], _timetable.StepPath(run), At(run.Start), At(run.End),
            steps.Of(run).Step.Origin, steps.Of(run).Number)),
    ];

    private ZonedDateTime At(long instant) => Instant.FromUnixTimeSeconds(instant).InZone(_site.TimeZone);

    private ChartDay DayOf(int index, List<ChartRun> runs, List<ChartHeld> held, ChartRecorder recorder)
    {
        var date = _span.First.PlusDays(index);
        var (from, until) = (NoonAfter(index), NoonAfter(index + 1));
        ImmutableArray<ChartRun> touching = [.. runs.Where(run => run.Run.End > from && run.Run.Start < until)];
        ImmutableArray<ChartHeld> dry = [.. held.Where(each => each.From >= from && each.From < until)];
        var zones = touching.Select(run => run.Zone).Concat(dry.Select(each => each.Zone)).DistinctBy(zone => zone.Index).OrderBy(zone => zone.Index);
        return new ChartDay(date, from, until)
        {
            Nights = [.. _sky.Nights(from, until)],
            Sun = [.. _sky.Notes(from, until)],
            Shifts = [.. _sky.Shifts(from, until)],
            Forbidden = [.. ForbiddenOf([.. zones], from, until)],
            Curves = [.. new DayCurves(_site, recorder, _water).Between(from, until)],
            Devices = [.. DevicesOf(recorder, from, until)],
            Marks = [.. _marks.Where(mark => mark.At >= from && mark.At < until).Select(mark => mark with { Zone = MarkedZones.Of(mark, touching, _site) })],
            Touching = touching,
            Held = dry,
            Runs = [.. touching.Where(run => run.Run.Start >= from || index == 0)],
        };
    }

    private IEnumerable<ChartDevice> DevicesOf(ChartRecorder recorder, long from, long until)
    {
        foreach (var device in _site.Devices)
        {
            ImmutableArray<ChartBand> bands = [.. recorder.Devices[device.Index].Where(band => band.Until > from && band.From < until)
                .Select(band => new ChartBand(Math.Max(from, band.From), Math.Min(until, band.Until)))];
            if (!bands.IsEmpty) yield return new ChartDevice(NameOf(device), bands.Sum(band => band.Until - band.From), bands);
        }
    }

    /// <summary>What a device is called, with what it is unless that stands in its name.</summary>
    private static string NameOf(Device device) => device.DisplayName.Contains(WordOf(device.Kind), StringComparison.OrdinalIgnoreCase)
        ? device.DisplayName
        : $"{WordOf(device.Kind)} {device.DisplayName}";

    private static string WordOf(DeviceKind kind) => kind switch
    {
        DeviceKind.Pump => "Pump",
        DeviceKind.Master => "Master valve",
        _ => "Injector",
    };

    /// <summary>What each restriction forbids; zones for which it forbids the same are one entry.</summary>
    private IEnumerable<ChartForbidden> ForbiddenOf(ImmutableArray<Zone> zones, long from, long until)
    {
        foreach (var (judge, restriction) in _restrictions)
        {
            var alike = zones.Select(zone => (zone.Index, Bands: Joined(BandsOf(judge, zone.Index, from, until)).ToImmutableArray()))
                .Where(zone => !zone.Bands.IsEmpty)
                .GroupBy(zone => string.Join(' ', zone.Bands), StringComparer.Ordinal);
            foreach (var group in alike)
                yield return new ChartForbidden(restriction.DisplayName, [.. group.Select(zone => zone.Index)], group.First().Bands);
        }
    }

    private IEnumerable<ChartBand> BandsOf(RestrictionJudge judge, int zone, long from, long until)
    {
        for (var day = _clock.At(from).Day; day <= _clock.At(until).Day; day++)
        {
            var (start, end) = (Math.Max(from, _clock.StartOfDay(day)), Math.Min(until, _clock.StartOfDay(day + 1)));
            if (start >= end) continue;
            foreach (var band in judge.Forbidden(zone, day, start, end)) yield return new ChartBand(band.From, band.Until);
        }
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
