using System.Collections.Immutable;
using System.Numerics;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Answers.Usage;

/// <summary>What the watering costs at a place of an axis: of the bills that end within the dates, each in the month and the year of its last date.</summary>
/// <param name="site">The site.</param>
/// <param name="meters">Its meters.</param>
internal sealed class UsageCosts(Site site, ImmutableArray<Meter> meters)
{
    /// <summary>The currency; null where there is none, or more than one, so that nothing can be added up.</summary>
    public Currency? Currency { get; } =
        meters.Select(meter => meter.Tariff.Currency).Distinct().ToArray() is [var only] && meters.Any(meter => meter.Complete.Any()) ? only : null;

    /// <summary>All of it, in the currency's minor unit.</summary>
    public BigInteger Total => meters.Aggregate(BigInteger.Zero, (sum, meter) => sum + meter.Cost);

    /// <summary>Whether costs are known along an axis.</summary>
    public bool Has(UsageAxis axis) => Currency is not null && axis is not (UsageAxis.Day or UsageAxis.Week);

    /// <summary>Places of an axis in which something is paid for, or saved.</summary>
    public IEnumerable<int> PaidOn(UsageAxis axis) => Has(axis) && axis.IsPeriod
        ? Bills.Where(entry => entry.Bill.Cost.Sign != 0).Select(entry => UsagePeriods.StartOf(axis, entry.Bill.End - 1)).Distinct()
        : [];

    /// <summary>Places of an axis at which tanks stand whose refill is paid for.</summary>
    public IEnumerable<int> TanksOn(UsageAxis axis) => axis is UsageAxis.Zone or UsageAxis.Schedule && Has(axis)
        ? Bills.SelectMany(entry => axis == UsageAxis.Zone ? entry.Bill.ZoneShares.Keys : entry.Bill.ScheduleShares.Keys)
            .Where(place => UsagePlaces.TankAt(axis, place, site) is not null).Distinct()
        : [];

    /// <summary>What falls to some places of an axis; null where nothing is known of any.</summary>
    public BigInteger? On(UsageAxis axis, IEnumerable<int> places) => places.Select(place => At(axis, place, period: null))
        .Aggregate((BigInteger?)null, (sum, cost) => cost is null ? sum : (sum ?? 0) + cost);

    /// <summary>What falls to a row of an answer; null where nothing is known of it.</summary>
    public BigInteger? Of(UsageRow row, ImmutableArray<UsageAxis> by)
    {
        if (Currency is null || by.Any(axis => !Has(axis))) return null;
        if (by.Length == 1) return At(by[0], row.First, period: null);
        if (by[0].IsPeriod) return At(by[1], row.Second, (by[0], row.First));
        return by[1].IsPeriod ? At(by[0], row.First, (by[1], row.Second)) : null;
    }

    /// <summary>An amount of the currency in words: <c>762.08</c>.</summary>
    public static string Say(BigInteger? amount, Currency currency) =>
        amount is { } known ? Fraction.Text(known, currency.Digits).Replace('-', '\u2212') : "–";

    private IEnumerable<(Meter Meter, Bill Bill)> Bills => meters.SelectMany(meter => meter.Complete.Select(bill => (meter, bill)));

    private BigInteger? At(UsageAxis axis, int place, (UsageAxis Axis, int Place)? period)
    {
        var bills = Bills.Where(entry => period is not { } of || UsagePeriods.StartOf(of.Axis, entry.Bill.End - 1) == of.Place);
        if (axis.IsPeriod) bills = bills.Where(entry => UsagePeriods.StartOf(axis, entry.Bill.End - 1) == place);
        else if (axis == UsageAxis.Supply) bills = bills.Where(entry => entry.Meter.Supply.Index == place);
        else if (axis == UsageAxis.Zone && !IsMetered(place)) return null;
        BigInteger? sum = null;
        foreach (var (_, bill) in bills)
        {
            sum = (sum ?? 0) + (axis switch
            {
                UsageAxis.Zone => bill.ZoneShares.GetValueOrDefault(place),
                UsageAxis.Schedule => bill.ScheduleShares.GetValueOrDefault(place),
                _ => bill.Cost,
            });
        }

        return sum;
    }

    private bool IsMetered(int place) => UsagePlaces.TankAt(UsageAxis.Zone, place, site) is not null
        || (site.Zones[place] is { ExactLitresPerMinute: not null, Supply: { } supply } && supply.WithFeeders().Any(each => each.Tariff is not null));
}
