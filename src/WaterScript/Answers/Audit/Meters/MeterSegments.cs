using System.Collections.Immutable;
using WaterScript.Answers.Usage;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Simulation.Water;
using WaterScript.Timetables;

namespace WaterScript.Answers.Audit.Meters;

/// <summary>What a site plans from each reading of any of its meters to the next, whole seconds exactly.</summary>
internal sealed class MeterSegments
{
    private const int SecondsInMinute = 60;
    private const int WorkOfPart = 5;

    private readonly Site _site;
    private readonly WorkBudget _budget;
    private readonly ZoneClock _clock;
    private readonly long[] _bounds;
    private readonly Dictionary<(int Segment, int Zone), long> _seconds = [];
    private readonly Dictionary<(int Segment, int Supply), decimal> _filled = [];
    private readonly HashSet<int> _tanks = [];

    /// <param name="site">The site.</param>
    /// <param name="moments">When meters were read, in Unix seconds; two at least.</param>
    /// <param name="budget">Counts the work.</param>
    /// <exception cref="WorkUsedUpException">There is too much.</exception>
    public MeterSegments(Site site, IEnumerable<long> moments, WorkBudget budget)
    {
        (_site, _budget, _clock) = (site, budget, new ZoneClock(site.TimeZone));
        _bounds = [.. moments.Distinct().Order()];
        var horizon = new Horizon(DateAt(_bounds[0]).ToLocalDate(), CivilDate.FromDayNumber(_clock.At(_bounds[^1]).Day + 1).ToLocalDate());
        AddRuns(horizon);
        foreach (var tank in TankRefills.Of(site, horizon, tank => tank.FedBy is not null, budget, [.. _bounds]))
        {
            _tanks.Add(tank.Supply.Index);
            foreach (var (from, _, litres) in tank.Pieces)
            {
                if (from < _bounds[0] || from >= _bounds[^1]) continue;
                var key = (SegmentAt(from), tank.Supply.Index);
                _filled[key] = _filled.GetValueOrDefault(key) + litres;
            }
        }
    }

    /// <summary>What zones that draw through a supply, and tanks that it fills, take from one reading to another; in litres.</summary>
    public Fraction WateringOf(Supply supply, long from, long until)
    {
        var sum = Fraction.Zero;
        var (first, end) = (SegmentAt(from), SegmentAt(until));
        foreach (var zone in _site.Zones.Where(zone => IsBehind(zone, supply)))
        {
            _budget.Spend(WorkOfPart + end - first);
            var seconds = 0L;
            for (var segment = first; segment < end; segment++) seconds += _seconds.GetValueOrDefault((segment, zone.Index));
            sum += (zone.ExactLitresPerMinute ?? Fraction.Zero) * new Fraction(seconds, SecondsInMinute);
        }

        foreach (var tank in FilledBy(supply).Where(tank => _tanks.Contains(tank.Index)))
        {
            _budget.Spend(WorkOfPart + end - first);
            for (var segment = first; segment < end; segment++) sum += Fraction.Of(_filled.GetValueOrDefault((segment, tank.Index)));
        }

        return sum;
    }

    /// <summary>What else goes through the meter of a supply, evenly over each date; in litres.</summary>
    public Fraction OtherOf(Supply supply, long from, long until)
    {
        var sum = Fraction.Zero;
        if (supply.OtherUse is not { Value: var use }) return sum;
        foreach (var (day, start, end) in new DatedPieces(_clock).Of(from, until))
        {
            _budget.Spend(WorkOfPart);
            sum += OtherWater.On(use, day) * new Fraction(end - start, _clock.StartOfDay(day + 1) - _clock.StartOfDay(day));
        }

        return sum;
    }

    /// <summary>Zones behind a meter whose flow is not known.</summary>
    public ImmutableArray<Zone> UnmeasuredOf(Supply supply) =>
        [.. _site.Zones.Where(zone => IsBehind(zone, supply) && zone.ExactLitresPerMinute is null && _seconds.Keys.Any(key => key.Zone == zone.Index))];

    /// <summary>Tanks that a supply fills and that cannot be followed.</summary>
    public ImmutableArray<Supply> TanksLeftOutOf(Supply supply) => [.. FilledBy(supply).Where(tank => !_tanks.Contains(tank.Index))];

    /// <summary>Whether water of a zone goes through the meter of a supply.</summary>
    public static bool IsBehind(Zone zone, Supply supply)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return zone.Supply?.WithFeeders().Any(each => each.Index == supply.Index) == true;
    }

    private IEnumerable<Supply> FilledBy(Supply supply) => _site.Supplies.Where(tank =>
        tank is { Tank: not null, FedBy: { } feeder } && feeder.WithFeeders().Any(each => each.Index == supply.Index));

    private CivilDate DateAt(long instant) => CivilDate.FromDayNumber(_clock.At(instant).Day);

    /// <summary>A zone that two runs water at once is open once.</summary>
    private void AddRuns(Horizon horizon)
    {
        var openUntil = new long[_site.Zones.Length];
        Array.Fill(openUntil, long.MinValue);
        foreach (var run in Timetable.WithWhatIsUnderWay(_site, horizon, _budget).Runs())
        {
            var from = Math.Max(Math.Max(run.Start, openUntil[run.Zone]), _bounds[0]);
            var until = Math.Min(run.End, _bounds[^1]);
            openUntil[run.Zone] = Math.Max(openUntil[run.Zone], run.End);
            while (from < until)
            {
                _budget.Spend(WorkOfPart);
                var segment = SegmentAt(from);
                var end = Math.Min(until, _bounds[segment + 1]);
                _seconds[(segment, run.Zone)] = _seconds.GetValueOrDefault((segment, run.Zone)) + end - from;
                from = end;
            }
        }
    }

    /// <summary>The number of the segment that begins at or before an instant.</summary>
    private int SegmentAt(long instant)
    {
        var place = Array.BinarySearch(_bounds, instant);
        return place >= 0 ? place : ~place - 1;
    }
}
