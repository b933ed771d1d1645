using System.Collections.Immutable;
using NodaTime;
using WaterScript.Language;
using WaterScript.Quantities;
using WaterScript.Text;

namespace WaterScript.Model;

/// <summary>What water costs: a rate table as the user read it.</summary>
internal sealed record Tariff
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>What people read, or null.</summary>
    public string? Label { get; init; }

    /// <summary>Where its name stands.</summary>
    public required Location Origin { get; init; }

    /// <summary>The currency of all its amounts.</summary>
    public required Currency Currency { get; init; }

    /// <summary>How long its bills are and when one begins, as written, or null.</summary>
    public Placed<BillingCycle>? WrittenBills { get; init; }

    /// <summary>How long its bills are and when one begins; months of the calendar where nothing is said.</summary>
    public BillingCycle Bills => WrittenBills?.Value ?? BillingCycle.EveryMonth;

    /// <summary>What each bill has whatever is used, or null.</summary>
    public Placed<FixedCharge>? Fixed { get; init; }

    /// <summary>What water costs by volume, in order of the file.</summary>
    public ImmutableArray<PriceLine> Prices { get; init; } = [];

    /// <summary>What the same water costs as it leaves again, in order of the file.</summary>
    public ImmutableArray<PriceLine> Sewer { get; init; } = [];

    /// <summary>Tax on all of it, in per cent, or null.</summary>
    public Placed<decimal>? TaxPercent { get; init; }

    /// <summary>The unit that volumes are billed in: that of its first price, else the cubic metre.</summary>
    public Unit Unit => Prices.Concat(Sewer).FirstOrDefault()?.Unit ?? Units.Find("m3", Dimension.Volume)!;

    /// <summary>What people read: the label, or else the name; on one line, in which every character can be seen.</summary>
    public string DisplayName => DisplayLine.CleanLine(Label ?? Name);
}

/// <summary>Bills of so many months of the calendar, one of which begins on a date; others before and after it.</summary>
/// <param name="Months">1 to 12.</param>
/// <param name="From">From the 1st to the 28th of a month.</param>
internal readonly record struct BillingCycle(int Months, LocalDate From)
{
    /// <summary>A bill for each month of the calendar.</summary>
    public static BillingCycle EveryMonth { get; } = new(1, new LocalDate(2000, 1, 1));
}

/// <summary>What an amount is for, whatever is used.</summary>
internal enum ChargePeriod
{
    /// <summary>A date of the bill.</summary>
    Day,

    /// <summary>A month of the bill.</summary>
    Month,

    /// <summary>A year: a twelfth of it for a month of the bill.</summary>
    Year,

    /// <summary>A bill, however long.</summary>
    Bill,
}

/// <summary>What a bill has whatever is used.</summary>
/// <param name="Amount">In the currency of the tariff.</param>
/// <param name="Per">What it is for.</param>
internal readonly record struct FixedCharge(decimal Amount, ChargePeriod Per);

/// <summary>What water costs from a volume of the bill on, perhaps on some dates only.</summary>
/// <param name="Origin">Where it stands.</param>
/// <param name="Amount">For a unit of volume, in the currency of the tariff.</param>
/// <param name="Unit">That unit.</param>
/// <param name="Above">The volume of the bill from which on it holds, or null for the first litre.</param>
/// <param name="Dates">The dates on which it holds, or null for all.</param>
internal sealed record PriceLine(Location Origin, decimal Amount, Unit Unit, Quantity? Above, Season? Dates)
{
    /// <summary>The volume from which on it holds, in litres.</summary>
    public Fraction AboveLitres { get; } = Above is { } above ? Fraction.Of(above) : Fraction.Zero;
}

/// <summary>What else goes through a meter, evenly over each day, month or year of the calendar.</summary>
/// <param name="Volume">How much.</param>
/// <param name="Per">Over what; never a bill.</param>
internal readonly record struct OtherUse(Quantity Volume, ChargePeriod Per);
