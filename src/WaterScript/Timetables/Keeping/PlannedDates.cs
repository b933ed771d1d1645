using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Diagnostics;

namespace WaterScript.Timetables.Keeping;

/// <summary>
/// The dates that count for <c>at most N days a week</c>: in order of time, the first of a week on which a schedule that keeps to the restriction is
/// planned to start at a moment that all restrictions allow that it keeps to. Planned is what would run were nothing held and nothing kept to.
/// </summary>
/// <param name="kept">The restrictions that are kept to.</param>
/// <param name="keptBy">By schedule: indexes of those that it keeps to.</param>
/// <param name="planned">The planned runs of all passes under way in a horizon, in order of their starts.</param>
/// <param name="first">The first date of the site, in days since 1970-01-01.</param>
/// <param name="clock">The site's.</param>
/// <param name="budget">Counts what is planned; may be null.</param>
internal sealed class PlannedDates(
    ImmutableArray<KeptRestriction> kept, ImmutableArray<ImmutableArray<int>> keptBy, Func<Horizon, IEnumerable<Run>> planned, int first, ZoneClock clock,
    WorkBudget? budget)
{
    /// <summary>Whole weeks are planned at a time.</summary>
    private const int DaysAtATime = 8 * 7;

    private const int WorkOfRun = 10;

    private readonly HashSet<(int Kept, int Line, int Zone, int Day)> _dates = [];
    private readonly Dictionary<(int Kept, int Line, int Zone), (int Week, int Count)> _weeks = [];
    private int _from, _until;

    /// <summary>Whether weeks of different restrictions begin on different days: then one week leads to the next, back to the first date.</summary>
    private bool AreChained => kept.Where(each => !each.WeekLines.IsEmpty).Select(each => each.Restriction.WeekStarts).Distinct().Count() > 1;

    /// <summary>Whether a date counts.</summary>
    /// <param name="restriction">Index of the restriction.</param>
    /// <param name="line">Index of the line among those of the week.</param>
    /// <param name="zone">The zone.</param>
    /// <param name="day">The date, in days since 1970-01-01.</param>
    public bool Counts(int restriction, int line, int zone, int day)
    {
        if (day < first) return false;
        Plan(day);
        return _dates.Contains((restriction, line, AccountOf(restriction, line, zone), day));
    }

    private void Plan(int day)
    {
        if (_from <= day && day < _until) return;
        var isNear = _until > _from && day >= _until && (AreChained || day < _until + DaysAtATime);
        if (!isNear)
        {
            _dates.Clear();
            _weeks.Clear();
            _from = _until = AreChained ? first : kept.First(each => !each.WeekLines.IsEmpty).WeekOf(day);
        }

        while (_until <= day)
        {
            var end = _until + DaysAtATime;
            var (start, stop) = (clock.StartOfDay(_until), clock.StartOfDay(end));
            foreach (var run in planned(new Horizon(CivilDate.FromDayNumber(_until).ToLocalDate(), CivilDate.FromDayNumber(end).ToLocalDate())))
            {
                budget?.Spend(WorkOfRun, run.Schedule);
                if (run.Start >= start && run.Start < stop && !keptBy[run.Schedule].IsEmpty) Count(run);
            }

            _until = end;
        }
    }

    /// <summary>A start counts its date for all lines of the week that bind it, where all that it keeps to allow it.</summary>
    private void Count(in Run run)
    {
        var day = clock.At(run.Start).Day;
        foreach (var index in keptBy[run.Schedule])
        {
            if (kept[index].Binds(run.Zone, day) && !Allows(index, run, day)) return;
        }

        foreach (var index in keptBy[run.Schedule])
        {
            if (!kept[index].Binds(run.Zone, day)) continue;
            for (var line = 0; line < kept[index].WeekLines.Length; line++)
            {
                var account = AccountOf(index, line, run.Zone);
                if (!_dates.Add((index, line, account, day))) continue;
                _weeks[(index, line, account)] = (kept[index].WeekOf(day), CountIn(index, line, account, day) + 1);
            }
        }
    }

    private bool Allows(int index, in Run run, int day)
    {
        if (kept[index].FirstForbidden(day, run.Start, run.Start + 1) is not null) return false;
        for (var line = 0; line < kept[index].WeekLines.Length; line++)
        {
            var account = AccountOf(index, line, run.Zone);
            if (!_dates.Contains((index, line, account, day)) && CountIn(index, line, account, day) >= kept[index].WeekLines[line].Amount) return false;
        }

        return true;
    }

    private int CountIn(int index, int line, int account, int day) =>
        _weeks.TryGetValue((index, line, account), out var week) && week.Week == kept[index].WeekOf(day) ? week.Count : 0;

    private int AccountOf(int index, int line, int zone) => kept[index].WeekLines[line].PerZone ? zone : -1;
}
