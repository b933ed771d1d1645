using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Editing.Nights;

/// <summary>How often and how long a zone is watered on some dates.</summary>
/// <param name="Times">Passes that water it.</param>
/// <param name="Seconds">Run time.</param>
internal readonly record struct Watered(int Times, long Seconds);

/// <summary>What each zone gets, and how often each schedule waters, on each date of the year, the month and the week of a night.</summary>
internal sealed class YearFigures
{
    private const int ShareOfCheck = 4;

    private readonly Dictionary<(int Zone, int Day), Watered> _byDay = [];
    private readonly HashSet<(int Zone, int Schedule, int Day, int Start, int Pass)> _passes = [];
    private readonly HashSet<(int Schedule, int Day)> _dates = [];

    private YearFigures(LocalDate from) => YearFrom = from;

    /// <summary>The first date of the year, counted from the site's own first date.</summary>
    public LocalDate YearFrom { get; }

    /// <summary>Adds up the dates around a night; null where that is more work than an answer may take.</summary>
    /// <param name="site">The site.</param>
    /// <param name="night">The date.</param>
    public static YearFigures? Around(Site site, LocalDate night)
    {
        ArgumentNullException.ThrowIfNull(site);
        var years = Math.Max(0, Period.Between(site.Effective, night, PeriodUnits.Years).Years);
        var figures = new YearFigures(site.Effective.PlusYears(years));
        var (week, month) = (MondayOf(night), new LocalDate(night.Year, night.Month, 1));
        var until = LocalDate.Max(LocalDate.Max(week.PlusDays(7), month.PlusMonths(1)), figures.YearFrom.PlusYears(1));
        var horizon = new Horizon(LocalDate.Min(LocalDate.Min(week, month), figures.YearFrom).PlusDays(-1), until.PlusDays(1));
        try
        {
            foreach (var run in Timetable.Of(site, horizon, new WorkBudget(Limits.CheckWorkOf(site.SourceLength) / ShareOfCheck)).Runs()) figures.Add(run);
            return figures;
        }
        catch (WorkUsedUpException)
        {
            return null;
        }
    }

    /// <summary>The Monday of a week.</summary>
    public static LocalDate MondayOf(LocalDate date) => date.PlusDays(-CivilDate.DaysAfterMonday(CivilDate.DayNumberOf(date)));

    /// <summary>What a zone gets on some dates.</summary>
    public Watered Of(Zone zone, LocalDate from, LocalDate until)
    {
        var (times, seconds) = (0, 0L);
        for (var day = CivilDate.DayNumberOf(from); day < CivilDate.DayNumberOf(until); day++)
        {
            if (!_byDay.TryGetValue((zone.Index, day), out var watered)) continue;
            (times, seconds) = (times + watered.Times, seconds + watered.Seconds);
        }

        return new Watered(times, seconds);
    }

    /// <summary>The dates of the year on which a schedule waters, in order.</summary>
    public IEnumerable<int> DatesOf(Schedule schedule)
    {
        var (from, until) = (CivilDate.DayNumberOf(YearFrom), CivilDate.DayNumberOf(YearFrom.PlusYears(1)));
        return _dates.Where(date => date.Schedule == schedule.Index && date.Day >= from && date.Day < until).Select(date => date.Day).Order();
    }

    private void Add(in Run run)
    {
        var isNew = _passes.Add((run.Zone, run.Schedule, run.Day, run.StartNumber, run.Pass));
        var known = _byDay.GetValueOrDefault((run.Zone, run.Day));
        _byDay[(run.Zone, run.Day)] = new Watered(known.Times + (isNew ? 1 : 0), known.Seconds + run.Seconds);
        _dates.Add((run.Schedule, run.Day));
    }
}
