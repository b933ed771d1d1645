using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Simulation.Water;

/// <summary>
/// Turns runs in order of start into what each supply is asked for. A zone draws from its supply and from those that feed it,
/// up to the first tank on the way. A change-over overlap is no run and does not count: while one valve closes and the
/// other opens, the two together give what one gives.
/// </summary>
internal sealed class Demand : IRunObserver
{
    private readonly PriorityQueue<int, long> _ends = new();
    private readonly SupplyUse[][] _suppliesOfZone;
    private readonly SupplyUse?[] _returnsOfZone;
    private readonly decimal[] _returned;
    private readonly decimal?[] _flows;
    private readonly int[] _open;
    private readonly Action<long> _spend;

    /// <param name="site">The site.</param>
    /// <param name="observers">Who sees the stretches.</param>
    /// <param name="spend">Counts the work of showing stretches.</param>
    public Demand(Site site, IReadOnlyList<IDemandObserver> observers, Action<long> spend)
    {
        _spend = spend;
        SupplyUse[] supplies = [.. site.Supplies.Select(supply => new SupplyUse(supply, [.. observers.Where(observer => observer.Observes(supply))]))];
        _suppliesOfZone = ByZone.Of(site, zone => zone.Supply,
            zone => Above(zone.Supply).Select(supply => supplies[supply.Index]).Where(supply => supply.Observers.Length > 0).ToArray());
        _flows = [.. site.Zones.Select(zone => zone.LitresPerMinute)];
        _returnsOfZone = [.. site.Zones.Select(zone => zone.Returns is { Value.Supply: var to } ? supplies[to.Index] : null)];
        _returned = [.. site.Zones.Select(zone => (zone.LitresPerMinute ?? 0) * (zone.Returns?.Value.Percent ?? 0) / 100)];
        _open = new int[site.Zones.Length];
    }

    /// <summary>The supply and those that water from it is drawn from at once: a tank on the way stands between them.</summary>
    public static IEnumerable<Supply> Above(Supply? supply) => supply?.WithFeeders() ?? [];

    /// <summary>More than zones can draw from each supply together, whatever opens when; in L/min, by the supply's index.</summary>
    public static decimal[] OfAllZones(Site site)
    {
        var all = new decimal[site.Supplies.Length];
        foreach (var zone in site.Zones)
        {
            foreach (var supply in Above(zone.Supply)) all[supply.Index] += zone.LitresPerMinute ?? 0;
        }

        return all;
    }

    /// <inheritdoc/>
    public bool Observes(Zone zone) => _suppliesOfZone[zone.Index].Length > 0 || _returnsOfZone[zone.Index] is { Observers.Length: > 0 };

    /// <inheritdoc/>
    public void Visit(in Run run)
    {
        EndUpTo(run.Start);
        var isFirst = _open[run.Zone]++ == 0;
        var contribution = new Contribution(new StepOrigin(run.Schedule, run.Step), run.Zone, Device: -1, _flows[run.Zone] ?? 0);
        _ends.Enqueue(run.Zone, run.End);
        if (!isFirst) return;
        foreach (var supply in _suppliesOfZone[run.Zone])
        {
            Report(supply, run.Start);
            supply.Open(contribution, _flows[run.Zone] is not null);
        }

        Return(run.Zone, run.Start, isMore: true);
    }

    /// <summary>No run is to come.</summary>
    public void Finish() => EndUpTo(long.MaxValue);

    private void EndUpTo(long second)
    {
        while (_ends.TryPeek(out var zone, out var end) && end <= second)
        {
            _ends.Dequeue();
            if (--_open[zone] > 0) continue;
            foreach (var supply in _suppliesOfZone[zone])
            {
                Report(supply, end);
                supply.Close(zone, _flows[zone] is not null);
            }

            Return(zone, end, isMore: false);
        }
    }

    /// <summary>What a zone gives back begins or ends.</summary>
    private void Return(int zone, long now, bool isMore)
    {
        if (_returnsOfZone[zone] is not { Observers.Length: > 0 } supply) return;
        Report(supply, now);
        supply.Return(_returned[zone], isMore);
    }

    private void Report(SupplyUse supply, long now)
    {
        if (supply.Since < now && (supply.Contributions.Count > 0 || supply.Returning > 0))
        {
            var interval = new DemandInterval(supply.Supply, supply.Since, now, supply.Flow, supply.Unknown == 0, supply.Contributions)
            {
                Returned = supply.Returned,
            };
            _spend(supply.Observers.Length * (supply.Contributions.Count + 4L));
            foreach (var observer in supply.Observers)
            {
                if (supply.Contributions.Count > 0 || observer.ObservesReturns) observer.Visit(interval);
            }
        }

        supply.Since = now;
    }

    /// <summary>What is open on a supply.</summary>
    private sealed class SupplyUse(Supply supply, IDemandObserver[] observers)
    {
        public IDemandObserver[] Observers { get; } = observers;

        public Supply Supply { get; } = supply;

        public List<Contribution> Contributions { get; } = [];

        public decimal Flow { get; private set; }

        public int Unknown { get; private set; }

        /// <summary>What zones give back, in L/min.</summary>
        public decimal Returned { get; private set; }

        /// <summary>How many zones give something back.</summary>
        public int Returning { get; private set; }

        public long Since { get; set; }

        public void Open(in Contribution contribution, bool isKnown)
        {
            Contributions.Add(contribution);
            Flow += contribution.Amount;
            if (!isKnown) Unknown++;
        }

        public void Return(decimal flow, bool isMore)
        {
            Returning += isMore ? 1 : -1;
            Returned = Returning == 0 ? 0 : isMore ? Returned + flow : Returned - flow;
        }

        /// <summary>Flows such as a third of a litre are not exact, so the sum begins anew when nothing is open.</summary>
        public void Close(int zone, bool isKnown)
        {
            var index = 0;
            while (Contributions[index].Zone != zone) index++;
            Flow = Contributions.Count == 1 ? 0 : Flow - Contributions[index].Amount;
            Contributions.RemoveAt(index);
            if (!isKnown) Unknown--;
        }
    }
}
