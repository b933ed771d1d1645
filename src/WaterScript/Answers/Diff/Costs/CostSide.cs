using System.Collections.Immutable;
using System.Numerics;
using WaterScript.Answers.Usage;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Diff.Costs;

/// <summary>What one version costs, and what it uses of allowances.</summary>
/// <param name="Site">The version.</param>
/// <param name="Meters">Its supplies with a tariff, and their bills.</param>
/// <param name="Allowances">Volumes that are allowed, and the period in which most of each is used.</param>
internal sealed record CostSide(Site Site, ImmutableArray<Meter> Meters, ImmutableArray<AllowanceUse> Allowances)
{
    /// <summary>That of a version.</summary>
    /// <exception cref="WorkUsedUpException">There is too much to add up.</exception>
    public static CostSide Of(Site site, Horizon horizon, WorkBudget budget)
    {
        var ledger = UsageLedger.Of(site, horizon, budget);
        return new CostSide(site, Meter.Of(site, horizon, ledger, budget), AllowanceUse.Of(site, ledger, budget));
    }

    /// <summary>What the bills of a meter come to that end in a year.</summary>
    public static YearOfBills YearOf(Meter meter, int year)
    {
        ArgumentNullException.ThrowIfNull(meter);
        Bill[] bills = [.. meter.Complete.Where(bill => CivilDate.FromDayNumber(bill.End - 1).Year == year)];
        return new YearOfBills(Sum(bills.Select(bill => bill.With.Total)), Sum(bills.Select(bill => bill.Cost)));
    }

    private static BigInteger Sum(IEnumerable<BigInteger> amounts) => amounts.Aggregate(BigInteger.Zero, (sum, amount) => sum + amount);
}

/// <summary>The bills that end in a year, in the currency's minor unit.</summary>
/// <param name="Bills">All of them together.</param>
/// <param name="Watering">What they are more for the watering.</param>
internal readonly record struct YearOfBills(BigInteger Bills, BigInteger Watering);
