using System.Collections.Immutable;
using System.Globalization;
using System.Numerics;
using WaterScript.Calendars;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Wording;

namespace WaterScript.Answers.Usage;

/// <summary>The bills of a meter as people read them.</summary>
/// <param name="meter">The meter.</param>
internal sealed class BillTable(Meter meter)
{
    private readonly Currency _currency = meter.Tariff.Currency;

    /// <summary><c>Town water, tariff town, EUR, bills every 2 months</c></summary>
    public string Heading => $"{meter.Supply.DisplayName}, tariff {meter.Tariff.Name}, {_currency.Code}, bills every "
        + (meter.Tariff.Bills.Months == 1 ? "month" : string.Create(CultureInfo.InvariantCulture, $"{meter.Tariff.Bills.Months} months"));

    /// <summary>A row for each bill and one for all that are complete.</summary>
    public UsageGrid Grid()
    {
        var unit = meter.Tariff.Unit;
        var digits = Digits(unit);
        var scale = new Fraction(BigInteger.Pow(10, digits), 1) / Fraction.Of(unit);
        Bill[] complete = [.. meter.Complete];
        var (water, other) = (TableRounding.Shares([.. complete.Select(bill => bill.Litres * scale)]),
            TableRounding.Shares([.. complete.Select(bill => bill.OtherLitres * scale)]));
        ImmutableArray<string> heads = ["bill", $"watering {unit}", $"other {unit}", "bill", "without", "watering costs"];
        var rows = complete.Select((bill, index) => Row(Dates(bill), water[index], other[index], bill.With.Total, bill.Without.Total, bill.Cost, digits));
        var total = Row(Phrases.Count(complete.Length, "bill"), Sum(water), Sum(other), Sum(complete.Select(bill => bill.With.Total)),
            Sum(complete.Select(bill => bill.Without.Total)), meter.Cost, digits);
        var open = meter.Bills.Where(bill => bill.IsSoFar).Select(bill => Row(Dates(bill), (bill.Litres * scale).Rounded, (bill.OtherLitres * scale).Rounded,
            bill.With.Total, bill.Without.Total, bill.Cost, digits));
        return new UsageGrid([heads, .. rows, .. complete.Length == 0 ? ImmutableArray<ImmutableArray<string>>.Empty : [total], .. open]);
    }

    /// <summary>What is to be known beside the rows.</summary>
    public IEnumerable<string> Notes()
    {
        if (meter.Bills.FirstOrDefault(bill => bill.IsSoFar) is { } open)
            yield return $"So far: to {SiteWords.Date(open.Cut - 1)}; fixed in full, other use to that day; block prices are reached later in the bill.";
        if (meter.Bills.Any(bill => bill.Cost.Sign < 0))
            yield return "Watering lowers a bill where water above a volume, or in a season, costs less.";
        foreach (var tank in meter.Tanks) yield return NotCounted(tank);
    }

    /// <summary>What a tank takes is not known date by date.</summary>
    public static string NotCounted(Supply tank) =>
        $"Not counted in the bills: what fills the tank of {tank.DisplayName} ({SiteWords.Place(tank.Origin)}).";

    /// <summary>A bill with all that it consists of, a line each.</summary>
    public IEnumerable<string> Lines(Bill bill)
    {
        var unit = meter.Tariff.Unit;
        string Volume(Fraction litres, Unit of) => (litres / Fraction.Of(of)).ToString(Digits(of));
        yield return $"{meter.Supply.DisplayName}, bill {Dates(bill)}: {Volume(bill.Litres, unit)} + {Volume(bill.OtherLitres, unit)} = "
            + $"{Volume(bill.Litres + bill.OtherLitres, unit)} {unit}";
        var rows = bill.With.Lines.Select(line => (ImmutableArray<string>)[Words(line), line.Amount.ToString(_currency.Digits + 2)]).ToList();
        if (meter.Tariff.TaxPercent is { Value: var tax })
            rows.Add([$"  tax {Phrases.Percent(tax)} of {bill.With.Net.ToString(_currency.Digits + 2)}", bill.With.Tax.ToString(_currency.Digits + 2)]);
        rows.Add(["  bill, rounded once", Say(bill.With.Total)]);
        rows.Add([$"  without watering, {Volume(bill.OtherLitres, unit)} {unit}", Say(bill.Without.Total)]);
        rows.Add([$"  watering costs, {_currency.Code}", Say(bill.Cost)]);
        foreach (var line in new UsageGrid([.. rows]).Lines()) yield return line;
    }

    /// <summary><c>15 May to 14 Jul 2026: 394.57, watering costs 279.22</c></summary>
    public IEnumerable<string> Sentences() =>
        meter.Bills.Select(bill => $"{meter.Supply.DisplayName}, {Dates(bill)}: {Say(bill.With.Total)} {_currency.Code}, watering costs {Say(bill.Cost)}");

    private static string Dates(Bill bill) => UsageTerms.Days(CivilDate.FromDayNumber(bill.First).ToLocalDate(),
        CivilDate.FromDayNumber(bill.Cut - 1).ToLocalDate(), hasYear: true) + (bill.IsSoFar ? ", so far" : "");

    private static string Words(BillLine line)
    {
        var price = line.Price.ToString("0.00##########", CultureInfo.InvariantCulture);
        if (line.Line is not { } written) return $"  fixed, {line.Quantity.ToString(line.Quantity.Denominator.IsOne ? 0 : 2)} at {price}";
        var volume = $"  {line.Quantity.ToString(Digits(written.Unit))} {written.Unit}";
        var above = written.Above is { } from ? $" (above {from})" : "";
        return line.Kind == BillLineKind.Sewer ? $"{volume} sewer at {price}{above}" : $"{volume} at {price}{above}";
    }

    private ImmutableArray<string> Row(string name, BigInteger water, BigInteger other, BigInteger with, BigInteger without, BigInteger cost, int digits) =>
        [name, Fraction.Text(water, digits), Fraction.Text(other, digits), Say(with), Say(without), Say(cost)];

    private string Say(BigInteger amount) => UsageCosts.Say(amount, _currency);

    /// <summary>Litres, a thousandth of a cubic metre or of a hundred cubic feet, a hundredth of a thousand gallons.</summary>
    private static int Digits(Unit unit) => unit.Symbol switch { "L" or "gal" => 0, "kgal" => 2, _ => 3 };

    private static BigInteger Sum(IEnumerable<BigInteger> numbers) => numbers.Aggregate(BigInteger.Zero, (sum, number) => sum + number);
}
