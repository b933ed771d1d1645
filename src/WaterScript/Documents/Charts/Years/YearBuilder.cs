using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;

namespace WaterScript.Documents.Charts.Years;

/// <summary>Gathers a year of a site.</summary>
internal sealed class YearBuilder
{
    private const int Noon = ZoneClock.SecondsInDay / 2;
    private readonly Site _site;
    private readonly LocalDate _from;
    private readonly int _first;
    private readonly int _days;
    private readonly ZoneClock _clock;
    private readonly Timetable _timetable;

    private YearBuilder(Site site, LocalDate from)
    {
        (_site, _from) = (site, from);
        _first = CivilDate.DayNumberOf(from);
        _days = Period.DaysBetween(from, from.PlusYears(1));
        _clock = new ZoneClock(site.TimeZone);
        _timetable = Timetable.Of(site, new Horizon(from, from.PlusYears(1)), new WorkBudget(Limits.CheckWorkOf(site.SourceLength)));
    }

    /// <summary>The year from a date on; of its nights the runs only.</summary>
    /// <exception cref="WorkUsedUpException">There is too much to look through.</exception>
    public static YearChart Build(Site site, LocalDate from) => new YearBuilder(site, from).Build();

    /// <summary>The year from a date on, with its nights as a picture of days has them.</summary>
    /// <param name="site">The site.</param>
    /// <param name="from">The first date.</param>
    /// <param name="findings">What its check found and when.</param>
    /// <exception cref="WorkUsedUpException">There is too much to look through.</exception>
    public static YearChart Build(Site site, LocalDate from, ImmutableArray<FindingMoments> findings)
    {
        var year = Build(site, from);
        return year.Nights is null ? year : year with { Nights = NightsOf(site, findings, new ChartSpan(from.PlusDays(-1), year.Days + 1)) };
    }

    /// <summary>The nights in which there is anything; null where there are too many runs.</summary>
    private static Chart? NightsOf(Site site, ImmutableArray<FindingMoments> findings, ChartSpan span)
    {
        try
        {
            var chart = ChartBuilder.Build(site, findings, span, Limits.YearRuns);
            return new Chart(site, [.. chart.Days.Where(day => !day.Touching.IsEmpty || !day.Held.IsEmpty || !day.Marks.IsEmpty)], chart.Findings);
        }
        catch (ChartTooLargeException)
        {
            return null;
        }
    }

    private YearChart Build()
    {
        var seconds = _site.Zones.Select(_ => new int[_days]).ToImmutableArray();
        var runs = new int[_days];
        List<Run>? kept = [];
        foreach (var run in _timetable.Runs())
        {
            // A pass that belongs to a date outside of the year, but is of its timetable, counts for the first or the last day.
            var day = Math.Clamp(run.Day - _first, 0, _days - 1);
            seconds[run.Zone][day] += (int)run.Seconds;
            runs[day]++;
            if (kept?.Count == Limits.YearRuns) kept = null;
            kept?.Add(run);
        }

        var held = new HeldWater(_timetable, long.MinValue, long.MaxValue).Days();
        var notes = new YearNotes(_site, _clock, _first, _days);
        return new YearChart(_site, _from, _days)
        {
            Seconds = seconds,
            Runs = [.. runs],
            States = [.. Enumerable.Range(0, _days).Select(day =>
                notes.IsClosed(day) ? DayState.Closed : held.Contains(day + _first) ? DayState.Held : DayState.Open)],
            Notes = [.. notes.All()],
            Changes = [.. notes.Changes()],
            Tanks = TankYear.Of(_site, _from, _days),
            Nights = kept is null ? null : new Chart(_site, [.. NightsOf(kept)], []),
        };
    }

    private IEnumerable<ChartDay> NightsOf(List<Run> runs)
    {
        var steps = new StepPlaces(_timetable);
        var sky = new DaySky(_site, _clock);
        var all = runs.Select((run, index) => new ChartRun(index + 1, run, _site.Zones[run.Zone], _site.Schedules[run.Schedule], _timetable.StepPath(run),
            At(run.Start), At(run.End), steps.Of(run).Step.Origin, steps.Of(run).Number));
        foreach (var night in all.GroupBy(run => NightOf(run.Run.Start)).OrderBy(night => night.Key))
        {
            var date = CivilDate.FromDayNumber(night.Key).ToLocalDate();
            var (from, until) = (ChartSpan.NoonOf(date, _clock), ChartSpan.NoonOf(date.PlusDays(1), _clock));
            ImmutableArray<ChartRun> own = [.. night];
            yield return new ChartDay(date, from, until)
            {
                Nights = [.. sky.Nights(from, until)],
                Sun = [],
                Shifts = [.. sky.Shifts(from, until)],
                Forbidden = [],
                Curves = [],
                Devices = [],
                Marks = [],
                Touching = own,
                Held = [],
                Runs = own,
            };
        }
    }

    /// <summary>The date at whose noon the night of an instant begins.</summary>
    private int NightOf(long instant)
    {
        var at = _clock.At(instant);
        return at.SecondOfDay < Noon ? at.Day - 1 : at.Day;
    }

    private ZonedDateTime At(long instant) => Instant.FromUnixTimeSeconds(instant).InZone(_site.TimeZone);
}
