using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Water;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts.Years;

/// <summary>A corner of the curve of a tank.</summary>
/// <param name="At">When, in days since the year began; two of one moment where the level jumps.</param>
/// <param name="Litres">What it holds.</param>
internal readonly record struct TankCorner(double At, decimal Litres);

/// <summary>What a tank holds over a year, as the checks calculate it: each day its first, least, greatest and last corner.</summary>
/// <param name="Supply">The supply with the tank.</param>
/// <param name="Corners">In order of time.</param>
/// <param name="Drawn">What is drawn from it in the year, in litres.</param>
/// <param name="Short">The days, from 0, on which it cannot give all without going below its reserve.</param>
internal sealed record TankYear(Supply Supply, ImmutableArray<TankCorner> Corners, decimal Drawn, ImmutableArray<int> Short)
{
    /// <summary>A walk begins so many years before the year, or with the site: a tank remembers.</summary>
    private const int YearsBefore = 2;

    /// <summary>The least that it holds.</summary>
    public decimal Least => Corners.Min(corner => corner.Litres);

    /// <summary>The tanks that can be followed, in order of the file.</summary>
    /// <exception cref="WorkUsedUpException">There is too much to walk over.</exception>
    public static ImmutableArray<TankYear> Of(Site site, LocalDate from, int days)
    {
        if (site.Supplies.All(supply => supply.Tank is null)) return [];
        var earliest = LocalDate.Max(site.Effective, from.PlusYears(-YearsBefore));
        var walked = new Horizon(LocalDate.Min(earliest, from), from.PlusDays(days));
        var context = new SimulationContext(Timetable.Of(site, walked, new WorkBudget(Limits.CheckWorkOf(site.SourceLength))));
        var tanks = site.Supplies.Select(supply => new Walked(context, supply, CivilDate.DayNumberOf(from), days)).Where(tank => tank.IsKnown).ToList();
        if (tanks.Count == 0) return [];
        new TimelineWalker(context, tanks).Go();
        return [.. tanks.Select(tank => tank.Finish())];
    }

    /// <summary>Days in a row on which it is short: the first, from 0, and the day after the last.</summary>
    public IEnumerable<(int From, int Until)> ShortSpells()
    {
        for (var i = 0; i < Short.Length; i++)
        {
            var from = Short[i];
            while (i + 1 < Short.Length && Short[i + 1] == Short[i] + 1) i++;
            yield return (from, Short[i] + 1);
        }
    }

    /// <summary>A tank while a timetable streams past.</summary>
    private sealed class Walked : IDemandObserver
    {
        private readonly Supply _supply;
        private readonly ZoneClock _clock;
        private readonly int _first;
        private readonly int _days;
        private readonly long _from;
        private readonly long _until;
        private readonly TankLevel? _level;
        private readonly List<TankCorner> _corners = [];
        private readonly List<TankCorner> _ofDay = [];
        private readonly SortedSet<int> _short = [];
        private (long At, decimal Level) _before;
        private decimal _drawn;

        public Walked(SimulationContext context, Supply supply, int first, int days)
        {
            (_supply, _clock, _first, _days) = (supply, context.WallClock, first, days);
            (_from, _until) = (_clock.StartOfDay(first), _clock.StartOfDay(first + days));
            _level = TankLevel.Of(context, supply, Add);
            _before = (long.MinValue, _level?.Full ?? 0);
        }

        public bool IsKnown => _level is not null;

        public bool Observes(Supply supply) => supply == _supply;

        public bool ObservesReturns => true;

        public void Visit(in DemandInterval interval)
        {
            foreach (var (part, before, after) in _level!.Draw(interval))
            {
                if (part.From < _from || part.From >= _until) continue;
                _drawn += part.Flow * part.Seconds;
                // It is short from when the reserve is reached, which may be after midnight.
                if (after < _level.Least - Flows.Tolerance)
                    _short.Add(DayOf(before <= _level.Least ? part.From : part.From + (long)((before - _level.Least) * part.Seconds / (before - after))));
            }
        }

        public TankYear Finish()
        {
            _level!.RestUntil(_until);
            Flush();
            _corners.Add(new TankCorner(_days, _before.Level / TankLevel.PerLitre));
            return new TankYear(_supply, [.. _corners], _drawn / TankLevel.PerLitre, [.. _short]);
        }

        private void Add(long at, decimal level)
        {
            if (at > _until) return;
            if (at >= _from && _corners.Count == 0 && _ofDay.Count == 0) _corners.Add(new TankCorner(0, LevelAt(_from, at, level) / TankLevel.PerLitre));
            _before = (at, level);
            if (at < _from) return;
            var corner = new TankCorner(PlaceOf(at), level / TankLevel.PerLitre);
            if (_ofDay.Count > 0 && Math.Floor(_ofDay[0].At) < Math.Floor(corner.At)) Flush();
            _ofDay.Add(corner);
        }

        /// <summary>The level at a moment between the corner before and one after it.</summary>
        private decimal LevelAt(long moment, long at, decimal level) => _before.At == long.MinValue || at == _before.At
            ? _before.Level
            : _before.Level + ((level - _before.Level) * (moment - _before.At) / (at - _before.At));

        /// <summary>Keeps of a day what can be seen of it.</summary>
        private void Flush()
        {
            if (_ofDay.Count > 0)
            {
                var (least, most) = (_ofDay.MinBy(corner => corner.Litres), _ofDay.MaxBy(corner => corner.Litres));
                _corners.AddRange(_ofDay.Where((corner, index) => index == 0 || index == _ofDay.Count - 1 || corner == least || corner == most).Distinct());
            }

            _ofDay.Clear();
        }

        private int DayOf(long at) => Math.Clamp(_clock.At(at).Day - _first, 0, _days - 1);

        private double PlaceOf(long at)
        {
            var day = _clock.At(at).Day;
            var (start, end) = (_clock.StartOfDay(day), _clock.StartOfDay(day + 1));
            return day - _first + ((double)(at - start) / (end - start));
        }
    }
}
