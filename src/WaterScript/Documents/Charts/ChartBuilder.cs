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
    private readonly int _mostRuns;
    private readonly ZoneClock _clock;
    private readonly NightsOfSpan _nights;
    private readonly Timetable _timetable;
    private readonly ImmutableArray<(RestrictionJudge Judge, Restriction Restriction)> _restrictions;
    private readonly DaySky _sky;
    private readonly WaterWords _water;
    private readonly ImmutableArray<ChartFinding> _findings;
    private readonly ImmutableArray<ChartMark> _marks;

    private ChartBuilder(Site site, ImmutableArray<FindingMoments> findings, ChartSpan span, int mostRuns)
    {
        (_site, _span, _mostRuns) = (site, span, mostRuns);
        _clock = new ZoneClock(site.TimeZone);
        _nights = new NightsOfSpan([.. Enumerable.Range(0, span.Days + 1).Select(day => ChartSpan.NoonOf(span.First.PlusDays(day), _clock))]);
        _sky = new DaySky(site, _clock);
        _water = new WaterWords(site);
        _timetable = Timetable.Of(site, Walked(), new WorkBudget(Limits.CheckWorkOf(site.SourceLength) / 2));
        _restrictions = [.. new RestrictionMonitor(_timetable).Each];
        (_findings, _marks) = Between(findings, _nights.NoonOf(0), _nights.NoonOf(span.Days));
    }

    /// <summary>The picture of a site.</summary>
    /// <param name="site">The site.</param>
    /// <param name="findings">What its check found and when; what happens on the days shown is marked.</param>
    /// <param name="span">The days to show.</param>
    /// <param name="mostRuns">The most runs that there may be, and as many openings of devices and waterings that are held.</param>
    /// <exception cref="WorkUsedUpException">There is too much to walk over.</exception>
    /// <exception cref="ChartTooLargeException">There are too many runs to draw.</exception>
    public static Chart Build(Site site, ImmutableArray<FindingMoments> findings, ChartSpan span, int mostRuns = Limits.ChartRuns)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(span);
        return new ChartBuilder(site, findings, span, mostRuns).Drawn();
    }

    private Chart Drawn()
    {
        var context = new SimulationContext(_timetable);
        var (from, until) = (_nights.NoonOf(0), _nights.NoonOf(_nights.Count));
        var recorder = new ChartRecorder(context, from, until, _mostRuns);
        new TimelineWalker(context, [recorder]).Go();
        recorder.Finish();
        var runs = _nights.Split(ChartRuns(recorder.Runs, context.Steps), run => (run.Run.Start, run.Run.End));
        var held = _nights.Split(new HeldWater(_timetable, from, until, _mostRuns).All(), each => (each.From, each.From));
        var marks = _nights.Split(_marks, mark => (mark.At, mark.At));
        var devices = recorder.Devices.Select(bands => _nights.Split(bands, band => (band.From, band.Until))).ToArray();
        var curves = new DayCurves(_site, recorder, _water, _nights);
        return new Chart(_site, [.. Enumerable.Range(0, _nights.Count).Select(night => DayOf(night, runs[night], held[night], marks[night]) with
        {
            Curves = [.. curves.Of(night)],
            Devices = [.. DevicesOf(device => devices[device][night], _nights.NoonOf(night), _nights.NoonOf(night + 1))],
        })], _findings);
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

    private List<ChartRun> ChartRuns(IEnumerable<Run> runs, StepPlaces steps) =>
    [
        .. runs.Select((run, index) => new ChartRun(
            index + 1, run, _site.Zones[run.Zone], _site.Schedules[run.Schedule], _timetable.StepPath(run), At(run.Start), At(run.End),
            steps.Of(run).Step.Origin, steps.Of(run).Number)),
    ];

    private ZonedDateTime At(long instant) => Instant.FromUnixTimeSeconds(instant).InZone(_site.TimeZone);

    private ChartDay DayOf(int night, List<ChartRun> runs, List<ChartHeld> held, List<ChartMark> marks)
    {
        var (from, until) = (_nights.NoonOf(night), _nights.NoonOf(night + 1));
        ImmutableArray<ChartRun> touching = [.. runs];
        var zones = touching.Select(run => run.Zone).Concat(held.Select(each => each.Zone)).DistinctBy(zone => zone.Index).OrderBy(zone => zone.Index);
        return new ChartDay(_span.First.PlusDays(night), from, until)
        {
            Nights = [.. _sky.Nights(from, until)],
            Sun = [.. _sky.Notes(from, until)],
            Shifts = [.. _sky.Shifts(from, until)],
            Forbidden = [.. ForbiddenOf([.. zones], from, until)],
            Curves = [],
            Devices = [],
            Marks = [.. MarkedZones.Of(marks, touching, held, _site)],
            Touching = touching,
            Held = [.. held],
            Runs = [.. touching.Where(run => run.Run.Start >= from || night == 0)],
        };
    }

    private IEnumerable<ChartDevice> DevicesOf(Func<int, List<ChartBand>> bandsOf, long from, long until)
    {
        foreach (var device in _site.Devices)
        {
            ImmutableArray<ChartBand> bands = [.. bandsOf(device.Index).Select(band => new ChartBand(Math.Max(from, band.From), Math.Min(until, band.Until)))];
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
