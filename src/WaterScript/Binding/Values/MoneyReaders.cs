using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding.Values;

/// <summary>A price as written.</summary>
/// <param name="Amount">For one unit.</param>
/// <param name="Unit">A unit of volume.</param>
/// <param name="Above">The volume from which on it holds, or null.</param>
/// <param name="From">The first date on which it holds, or null for all.</param>
/// <param name="To">The last, or null.</param>
internal sealed record PriceValue(decimal Amount, Unit Unit, Quantity? Above, DateNode? From, DateNode? To);

/// <summary>Reads what tariffs consist of.</summary>
internal static class MoneyReaders
{
    private const int LastDayOfAll = 28;
    private static readonly Bounds Money = new(0, 1_000_000_000);

    /// <summary>Reads a value of a tariff, or of a supply that has one; null when it could not be read, which is reported.</summary>
    public static object? ValueOf(PropertyType type, RowCursor row) => type switch
    {
        CurrencyType => CurrencyOf(row),
        BillsType bills => Bills(row, bills.Most),
        ChargeType => Charge(row),
        PriceType => Price(row),
        _ => Other(row),
    };

    private static Currency? CurrencyOf(RowCursor row)
    {
        var location = row.Location;
        if (row.Name("the code of a currency, such as EUR,") is not { } code) return null;
        if (Currency.Find(code.Text) is { } currency) return currency;
        var written = new Location(location.Source, code.Span);
        if (Currency.Find(code.Text.ToUpperInvariant()) is { } meant)
        {
            row.Scope.Report(Finding.At(ReadingRules.OutOfRange, written, $"\"{code.Text}\" is not the code of a currency") with
            {
                Help = $"Write `{meant.Code}`.",
                Fix = Fix.Safe($"write `{meant.Code}`", written, meant.Code),
            });
            return null;
        }

        row.Scope.Report(ReadingRules.OutOfRange, written, $"\"{code.Text}\" is not the code of a currency", "three letters of ISO 4217",
            "Write a code such as `EUR` or `USD`.");
        return null;
    }

    private static BillingCycle? Bills(RowCursor row, int most)
    {
        if (!row.Expect("every")) return null;
        var months = 1;
        if (row.IsAtNumber)
        {
            if (row.Whole(1, most) is not { } count || row.OneOf("months", "month") is null) return null;
            months = count;
        }
        else if (!row.Expect("month")) return null;

        if (row.IsAtEnd && months == 1) return BillingCycle.EveryMonth;
        if (!row.Expect("from")) return null;
        var start = row.Position;
        if (row.Date() is not { } from) return null;
        if (from.Day <= LastDayOfAll) return new BillingCycle(months, from);
        row.FailRange(row.SpanFrom(start), $"not every month has a day {from.Day}", "bills begin on a day from 1 to 28");
        return null;
    }

    private static FixedCharge? Charge(RowCursor row)
    {
        if (row.Number(Money) is not { } amount || !row.Expect("a")) return null;
        return row.OneOf("day", "month", "year", "bill") is { } word ? new FixedCharge(amount, PeriodOf(word)) : null;
    }

    private static PriceValue? Price(RowCursor row)
    {
        if (row.Number(Money) is not { } amount || !row.Expect("per") || row.UnitOf(Dimension.Volume) is not { } unit) return null;
        Quantity? above = null;
        if (row.Accept("above") && (above = row.Quantity(Dimension.Volume, Bounds.Positive)) is null) return null;
        if (!row.Accept("from")) return new PriceValue(amount, unit, above, From: null, To: null);
        if (row.DateAsWritten() is not { } from) return null;
        if (!row.Accept("to")) return new PriceValue(amount, unit, above, from, To: null);
        return row.DateAsWritten() is { } to ? new PriceValue(amount, unit, above, from, to) : null;
    }

    private static OtherUse? Other(RowCursor row)
    {
        if (row.Quantity(Dimension.Volume, Bounds.NotNegative) is not { } volume || !row.Expect("a")) return null;
        return row.OneOf("day", "month", "year") is { } word ? new OtherUse(volume, PeriodOf(word)) : null;
    }

    private static ChargePeriod PeriodOf(string word) => word switch
    {
        "day" => ChargePeriod.Day,
        "month" => ChargePeriod.Month,
        "year" => ChargePeriod.Year,
        _ => ChargePeriod.Bill,
    };
}
