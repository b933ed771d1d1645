using System.Collections.Immutable;
using System.Numerics;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Simulation.Water;
using WaterScript.Timetables;

namespace WaterScript.Answers.Usage;

/// <summary>A supply with a tariff, and its bills: of its zones, of those of supplies that it feeds at once, and of what fills tanks.</summary>
/// <param name="Supply">The supply.</param>
/// <param name="Tariff">Its tariff.</param>
/// <param name="Bills">Those that end within the dates, in order, and one that they cut.</param>
internal sealed record Meter(Supply Supply, Tariff Tariff, ImmutableArray<Bill> Bills)
{
    /// <summary>Work of pricing a date.</summary>
    private const int WorkOfDay = 100;

    /// <summary>Tanks that are filled through it and cannot be followed, so that their water is not counted.</summary>
    public ImmutableArray<Supply> Tanks { get; init; } = [];

    /// <summary>What its complete bills are more for the watering, in the currency's minor unit.</summary>
    public BigInteger Cost => Complete.Aggregate(BigInteger.Zero, (sum, bill) => sum + bill.Cost);

    /// <summary>The bills that end within the dates.</summary>
    public IEnumerable<Bill> Complete => Bills.Where(bill => !bill.IsSoFar);

    /// <summary>The meters of a site.</summary>
    /// <param name="site">The site.</param>
    /// <param name="horizon">The dates.</param>
    /// <param name="ledger">What zones do on them.</param>
    /// <param name="budget">Counts the work.</param>
    /// <exception cref="WorkUsedUpException">There is too much.</exception>
    public static ImmutableArray<Meter> Of(Site site, Horizon horizon, UsageLedger ledger, WorkBudget budget)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(horizon);
        Supply[] metered = [.. site.Supplies.Where(supply => supply.Tariff is not null)];
        if (metered.Length == 0) return [];
        var (from, until) = (CivilDate.DayNumberOf(horizon.From), CivilDate.DayNumberOf(horizon.Until));
        var first = metered.Min(supply => BillCalendar.Of(supply.Tariff!.Bills, from).First);
        // A bill that ends within the dates may have begun before them.
        var all = first < from && horizon.From > site.Effective
            ? UsageLedger.Of(site, new Horizon(CivilDate.FromDayNumber(first).ToLocalDate(), horizon.Until), budget)
            : ledger;
        var refills = TankRefills.Of(site, horizon, tank => IsFed(tank, metered), budget);
        return [.. metered.Select(supply =>
        {
            TankRefills[] tanks = [.. refills.Where(refill => IsFed(refill.Supply, supply))];
            return new Meter(supply, supply.Tariff!, [.. BillsOf(supply, WaterOf(supply, site, all, tanks), (from, until), budget)])
            {
                Tanks = [.. site.Supplies.Where(tank => IsFed(tank, supply) && tanks.All(known => known.Supply.Index != tank.Index))],
            };
        })];
    }

    /// <summary>Whether a tank is filled through one of some supplies.</summary>
    private static bool IsFed(Supply tank, params Supply[] by) =>
        tank is { Tank: not null, FedBy: { } feeder } && feeder.WithFeeders().Any(each => by.Any(supply => supply.Index == each.Index));

    /// <summary>What flows through a meter: for zones, each date and schedule, and into tanks, which stand behind all zones and schedules.</summary>
    private static ILookup<int, Watered> WaterOf(Supply supply, Site site, UsageLedger ledger, TankRefills[] tanks)
    {
        var zones = site.Zones.Where(zone => zone.Supply?.WithFeeders().Any(each => each.Index == supply.Index) == true)
            .ToDictionary(zone => zone.Index, zone => zone.ExactLitresPerMinute ?? Fraction.Zero);
        var watered = ledger.Zones.Where(entry => zones.ContainsKey(entry.Key.Zone) && entry.Value.Seconds > 0)
            .Select(entry => new Watered(entry.Key.Day, entry.Key.Zone, entry.Key.Schedule,
                zones[entry.Key.Zone] * new Fraction(entry.Value.Seconds, 60)));
        var filled = tanks.SelectMany(tank => tank.Days.Select(day => new Watered(day.Day, UsagePlaces.OfTank(UsageAxis.Zone, tank.Supply, site),
            UsagePlaces.OfTank(UsageAxis.Schedule, tank.Supply, site), Fraction.Of(day.Litres))));
        return watered.Concat(filled).ToLookup(each => each.Day);
    }

    private static IEnumerable<Bill> BillsOf(Supply supply, ILookup<int, Watered> water, (int From, int Until) dates, WorkBudget budget)
    {
        var (from, until) = dates;
        for (var (first, end) = BillCalendar.Of(supply.Tariff!.Bills, from); first < until; (first, end) = BillCalendar.Of(supply.Tariff.Bills, end))
        {
            budget.Spend(WorkOfDay * (Math.Min(end, until) - first));
            yield return BillOf(supply, first, end, Math.Min(end, until), water);
        }
    }

    private static Bill BillOf(Supply supply, int first, int end, int cut, ILookup<int, Watered> water)
    {
        Fraction OtherOn(int day) => supply.OtherUse is { Value: var use } ? OtherWater.On(use, day) : Fraction.Zero;
        var days = Enumerable.Range(first, cut - first).Select(day => (Day: day, Other: OtherOn(day), Water: Sum(water[day]))).ToList();
        var with = BillSum.Of(supply.Tariff!, first, end, days.Select(day => (day.Day, day.Other + day.Water)));
        var without = BillSum.Of(supply.Tariff!, first, end, days.Select(day => (day.Day, day.Other)));
        var cost = with.Total - without.Total;
        var watered = days.SelectMany(day => water[day.Day]).ToList();
        return new Bill(first, end, cut, with, without)
        {
            Litres = days.Aggregate(Fraction.Zero, (sum, day) => sum + day.Water),
            OtherLitres = days.Aggregate(Fraction.Zero, (sum, day) => sum + day.Other),
            ZoneShares = SharesOf(cost, watered.GroupBy(each => each.Zone)),
            ScheduleShares = SharesOf(cost, watered.GroupBy(each => each.Schedule)),
        };
    }

    /// <summary>Shares by litres: the amount without its sign by largest remainder, of two alike the first in order of the file.</summary>
    private static ImmutableSortedDictionary<int, BigInteger> SharesOf(BigInteger cost, IEnumerable<IGrouping<int, Watered>> groups)
    {
        var parts = groups.Select(group => (group.Key, Litres: Sum(group))).Where(part => part.Litres.Sign > 0).OrderBy(part => part.Key).ToList();
        var all = parts.Aggregate(Fraction.Zero, (sum, part) => sum + part.Litres);
        var amount = BigInteger.Abs(cost);
        var shares = TableRounding.Shares([.. parts.Select(part => new Fraction(amount, 1) * part.Litres / all)], amount);
        return parts.Index().ToImmutableSortedDictionary(part => part.Item.Key, part => shares[part.Index] * cost.Sign);
    }

    private static Fraction Sum(IEnumerable<Watered> water) => water.Aggregate(Fraction.Zero, (sum, each) => sum + each.Litres);

    /// <summary>Water of a zone for a schedule, or of a tank, on a date.</summary>
    private readonly record struct Watered(int Day, int Zone, int Schedule, Fraction Litres);
}

/// <summary>A bill, with and without the watering.</summary>
/// <param name="First">Its first date, in days since 1970-01-01.</param>
/// <param name="End">The first date after it.</param>
/// <param name="Cut">The first date that is not counted: its end, or that of the dates.</param>
/// <param name="With">What it comes to.</param>
/// <param name="Without">What it would come to without the watering.</param>
internal sealed record Bill(int First, int End, int Cut, BillSum With, BillSum Without)
{
    /// <summary>Whether the dates end before it does.</summary>
    public bool IsSoFar => Cut < End;

    /// <summary>What it is more for the watering, in the currency's minor unit; less than nothing where watering makes it less.</summary>
    public BigInteger Cost => With.Total - Without.Total;

    /// <summary>Litres of watering.</summary>
    public Fraction Litres { get; init; }

    /// <summary>Litres of other use.</summary>
    public Fraction OtherLitres { get; init; }

    /// <summary>What of <see cref="Cost"/> falls to each zone that takes water, and each tank, by <see cref="UsagePlaces"/>.</summary>
    public required ImmutableSortedDictionary<int, BigInteger> ZoneShares { get; init; }

    /// <summary>The same by schedule.</summary>
    public required ImmutableSortedDictionary<int, BigInteger> ScheduleShares { get; init; }
}
