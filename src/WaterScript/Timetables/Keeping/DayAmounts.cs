using System.Collections.Immutable;
using System.Numerics;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;

namespace WaterScript.Timetables.Keeping;

/// <summary>
/// From when on the amount of a date is used up, for each line that limits one. All water of the zones that are bound is added up in order of time,
/// also that of schedules that do not keep to the restriction; those that do stop at the last whole second that is within it.
/// </summary>
/// <param name="site">The site.</param>
/// <param name="kept">The restrictions that are kept to.</param>
/// <param name="keptBy">By schedule: indexes of those that it keeps to.</param>
/// <param name="runs">The runs of all passes under way in a horizon, by dates and hours, in order of their starts.</param>
/// <param name="clock">The site's.</param>
/// <param name="budget">Counts what is added up; may be null.</param>
internal sealed class DayAmounts(
    Site site, ImmutableArray<KeptRestriction> kept, ImmutableArray<ImmutableArray<int>> keptBy, Func<Horizon, IEnumerable<Run>> runs, ZoneClock clock,
    WorkBudget? budget)
{
    /// <summary>So many dates are added up at a time, and looked back for a midnight at which nothing is watered.</summary>
    private const int DaysAtATime = 28, DaysBack = 7;

    private const int WorkOfStretch = 20;

    private readonly ImmutableArray<DayAccount> _accounts =
        [.. kept.Index().SelectMany(each => each.Item.DayLines.Select(line => new DayAccount(each.Index, line, site)))];
    private readonly int _first = CivilDate.DayNumberOf(site.Effective);
    private readonly Dictionary<(int Account, int Zone, int Day), long> _usedUp = [];
    private readonly Dictionary<(int Account, int Zone), BigInteger> _sums = [];
    private readonly List<Run> _wet = [];
    private int _from, _until;
    private long _now;
    private int _day;

    /// <summary>The first instant from which on a line of a restriction takes what a zone would have of a date, in Unix seconds; null for none.</summary>
    public long? UsedUp(int restriction, int zone, int day)
    {
        if (day < _first || kept[restriction].DayLines.IsEmpty || !kept[restriction].Binds(zone, day)) return null;
        AddUp(day);
        long? first = null;
        for (var index = 0; index < _accounts.Length; index++)
        {
            if (_accounts[index].Restriction == restriction && _accounts[index].Acts[zone]
                && _usedUp.TryGetValue((index, KeyOf(index, zone), day), out var moment)) first = Math.Min(first ?? long.MaxValue, moment);
        }

        return first;
    }

    private void AddUp(int day)
    {
        if (_from <= day && day < _until) return;
        if (_until == _from || day < _from || day >= _until + DaysAtATime)
        {
            _usedUp.Clear();
            _wet.Clear();
            _from = _until = DryMidnightBefore(day);
            Turn(_until);
        }

        while (_until <= day)
        {
            var end = _until + DaysAtATime;
            var (start, stop) = (clock.StartOfDay(_until), clock.StartOfDay(end));
            foreach (var run in runs(HorizonOf(_until, end)))
            {
                if (run.Start < start || run.Start >= stop) continue;
                Advance(run.Start);
                if (!IsHeld(run)) _wet.Add(run);
            }

            Advance(stop);
            _until = end;
        }
    }

    private static Horizon HorizonOf(int from, int until) =>
        new(CivilDate.FromDayNumber(from).ToLocalDate(), CivilDate.FromDayNumber(until).ToLocalDate());

    /// <summary>
    /// The last midnight up to a date at which nothing is watered, so that nothing before it matters; the first one of all where there is none.
    /// </summary>
    private int DryMidnightBefore(int day)
    {
        if (day - DaysBack <= _first) return _first;
        var wet = new HashSet<int>();
        foreach (var run in runs(HorizonOf(day - DaysBack, day)))
        {
            budget?.Spend(1, run.Schedule);
            for (var date = clock.At(run.Start).Day + 1; clock.StartOfDay(date) < run.End; date++) wet.Add(date);
        }

        for (var date = day; date > day - DaysBack; date--)
        {
            if (!wet.Contains(date)) return date;
        }

        return _first;
    }

    /// <summary>Begins a date.</summary>
    private void Turn(int day)
    {
        _day = day;
        _now = clock.StartOfDay(day);
        _sums.Clear();
    }

    /// <summary>Adds up until an instant, stretch by stretch: until a run ends, a date does, or an amount is used up.</summary>
    private void Advance(long instant)
    {
        while (_now < instant)
        {
            var midnight = clock.StartOfDay(_day + 1);
            var end = Math.Min(instant, midnight);
            foreach (var run in _wet) end = Math.Min(end, run.End);
            budget?.Spend(WorkOfStretch * (1 + _accounts.Length));
            var (seconds, account, zone) = FirstUsedUp(end - _now);
            Add(seconds);
            _now += seconds;
            _wet.RemoveAll(run => run.End <= _now);
            if (account >= 0) Stop(account, zone);
            else if (_now == midnight) Turn(_day + 1);
        }
    }

    /// <summary>The account that is used up first within some seconds, and after how many; -1 for none.</summary>
    private (long Seconds, int Account, int Zone) FirstUsedUp(long longest)
    {
        var first = (Seconds: longest, Account: -1, Zone: -1);
        for (var index = 0; index < _accounts.Length; index++)
        {
            foreach (var (zone, zones) in Wet(index))
            {
                if (_usedUp.ContainsKey((index, zone, _day)) || _accounts[index].ShareOf(zones) is not { IsZero: false } share) continue;
                var left = (_accounts[index].MostOf(Math.Max(0, zone)) - _sums.GetValueOrDefault((index, zone))) / share;
                if (left < first.Seconds) first = ((long)left, index, zone);
            }
        }

        return first;
    }

    private void Add(long seconds)
    {
        if (seconds == 0) return;
        for (var index = 0; index < _accounts.Length; index++)
        {
            foreach (var (zone, zones) in Wet(index))
                _sums[(index, zone)] = _sums.GetValueOrDefault((index, zone)) + (_accounts[index].ShareOf(zones) * seconds);
        }
    }

    /// <summary>What an account counts now: of each zone for itself, or of all under -1; each zone once, and only those that are bound.</summary>
    private IEnumerable<(int Zone, List<int> Zones)> Wet(int account)
    {
        var restriction = kept[_accounts[account].Restriction];
        var zones = _wet.Select(run => run.Zone).Distinct().Where(zone => restriction.Binds(zone, _day)).ToList();
        if (_accounts[account].IsPerZone) return zones.Select(zone => (zone, new List<int> { zone }));
        return zones.Count > 0 ? [(-1, zones)] : [];
    }

    private void Stop(int account, int zone)
    {
        _usedUp[(account, zone, _day)] = _now;
        _wet.RemoveAll(IsHeld);
    }

    private bool IsHeld(Run run)
    {
        foreach (var restriction in keptBy[run.Schedule])
        {
            if (!kept[restriction].Binds(run.Zone, _day)) continue;
            for (var index = 0; index < _accounts.Length; index++)
            {
                if (_accounts[index].Restriction == restriction && _accounts[index].Acts[run.Zone]
                    && _usedUp.ContainsKey((index, KeyOf(index, run.Zone), _day))) return true;
            }
        }

        return false;
    }

    private int KeyOf(int account, int zone) => _accounts[account].IsPerZone ? zone : -1;
}
