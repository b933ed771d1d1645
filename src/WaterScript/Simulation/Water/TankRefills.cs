using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Simulation.Water;

/// <summary>What the refill of a tank brings, date by date.</summary>
/// <param name="Supply">The supply with the tank.</param>
/// <param name="Pieces">
/// Stretches in which it brings anything, in order, each of one local date: where it begins in Unix seconds, the date in days since 1970-01-01, and litres.
/// </param>
internal sealed record TankRefills(Supply Supply, ImmutableArray<(long From, int Day, decimal Litres)> Pieces)
{
    /// <summary>The same by date.</summary>
    public IEnumerable<(int Day, decimal Litres)> Days =>
        Pieces.GroupBy(piece => piece.Day).OrderBy(day => day.Key).Select(day => (day.Key, day.Sum(piece => piece.Litres)));

    /// <summary>Those of tanks that can be followed, in order of the file: from the site's first date on, whatever dates are asked for.</summary>
    /// <param name="site">The site.</param>
    /// <param name="horizon">The dates, the last of which ends it.</param>
    /// <param name="isAsked">Whether anybody asks for a tank.</param>
    /// <param name="budget">Counts the work.</param>
    /// <param name="moments">Moments over which no stretch goes, in order, in Unix seconds.</param>
    /// <exception cref="WorkUsedUpException">There is too much.</exception>
    public static ImmutableArray<TankRefills> Of(Site site, Horizon horizon, Func<Supply, bool> isAsked, WorkBudget budget, long[]? moments = null)
    {
        Supply[] asked = [.. site.Supplies.Where(supply => supply is { Tank: not null, Refill: not null } && isAsked(supply))];
        if (asked.Length == 0) return [];
        var walked = new Horizon(LocalDate.Min(site.Effective, horizon.From), horizon.Until);
        var context = new SimulationContext(Timetable.Of(site, walked, budget));
        Followed[] tanks = [.. asked.Select(supply => new Followed(context, supply, moments ?? [])).Where(tank => tank.IsKnown)];
        if (tanks.Length == 0) return [];
        new TimelineWalker(context, tanks).Go();
        var end = context.WallClock.StartOfDay(CivilDate.DayNumberOf(horizon.Until));
        return [.. tanks.Select(tank => tank.UpTo(end))];
    }

    private sealed class Followed : IDemandObserver
    {
        private readonly Supply _supply;
        private readonly DayRefill _refill;
        private readonly TankLevel? _level;

        public Followed(SimulationContext context, Supply supply, long[] moments)
        {
            (_supply, _refill) = (supply, new DayRefill(context, moments));
            _level = TankLevel.Of(context, supply, refilled: _refill);
        }

        public bool IsKnown => _level is not null;

        public bool Observes(Supply supply) => supply.Index == _supply.Index;

        public void Visit(in DemandInterval interval)
        {
            foreach (var _ in _level!.Draw(interval)) { }
        }

        public TankRefills UpTo(long end)
        {
            _level!.RestUntil(end);
            return new TankRefills(_supply, [.. _refill.Pieces]);
        }
    }
}
