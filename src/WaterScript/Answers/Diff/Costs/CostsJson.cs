using System.Numerics;
using WaterScript.Answers.Usage;
using WaterScript.Documents.Reports;
using WaterScript.Language;
using WaterScript.Quantities;

namespace WaterScript.Answers.Diff.Costs;

/// <summary>What is paid otherwise, and what of allowances is used otherwise, for programs.</summary>
internal static class CostsJson
{
    /// <summary>Digits after the point of litres.</summary>
    private const int Digits = 6;

    /// <summary>Bills, a supply and a year each.</summary>
    public static IEnumerable<CostItem> Of(IEnumerable<MeterChange> meters) => meters.SelectMany(meter => meter.Years.Select(year => new CostItem
    {
        Supply = meter.Supply.Name,
        Year = year.Year,
        OldCurrency = meter.Old?.Code,
        NewCurrency = meter.New?.Code,
        OldBills = Money(year.Old?.Bills, meter.Old),
        NewBills = Money(year.New?.Bills, meter.New),
        OldWatering = Money(year.Old?.Watering, meter.Old),
        NewWatering = Money(year.New?.Watering, meter.New),
        Tariff = meter.Tariff is var (_, place) ? new PlaceItem(place) : null,
    }));

    /// <summary>An allowance.</summary>
    public static AllowanceItem Of(AllowanceChange change)
    {
        ArgumentNullException.ThrowIfNull(change);
        return new AllowanceItem
        {
            Restriction = change.Restriction.Name,
            Period = change.Line.Period.ToString().ToLowerInvariant(),
            OldFrom = FromOf(change.Old),
            NewFrom = FromOf(change.New),
            OldZone = change.Old?.Zone?.Name,
            NewZone = change.New?.Zone?.Name,
            OldUsed = change.OldLine is null ? null : Litres(change.Old),
            NewUsed = Litres(change.New),
            OldLimit = change.OldLine?.Volume is { } limit ? Fraction.Of(limit).ToDecimal(Digits) : null,
            NewLimit = Fraction.Of(change.Line.Volume!.Value).ToDecimal(Digits),
            Place = new PlaceItem(change.Line.Origin),
        };
    }

    private static string? Money(BigInteger? amount, Currency? currency) => amount is { } known ? Fraction.Text(known, currency!.Digits) : null;

    private static string? FromOf(AllowanceUse? use) => use is null ? null : UsagePeriods.Write(UsageAxis.Day, use.Start);

    private static decimal Litres(AllowanceUse? use) => (use?.Litres ?? Fraction.Zero).ToDecimal(Digits);
}
