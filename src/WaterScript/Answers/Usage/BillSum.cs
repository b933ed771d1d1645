using System.Collections.Immutable;
using System.Numerics;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Answers.Usage;

/// <summary>
/// What a bill comes to. Water is priced in the order in which it flows, date by date: of the lines in force the one with the greatest volume that the bill
/// has reached, a line with dates before one without. All of it is exact, and rounded once, half up, after tax.
/// </summary>
internal sealed class BillSum
{
    private const int Percent = 100;
    private const int MonthsInYear = 12;

    private BillSum(Tariff tariff, ImmutableArray<BillLine> lines)
    {
        Lines = lines;
        Net = lines.Aggregate(Fraction.Zero, (sum, line) => sum + line.Amount);
        Tax = Net * Fraction.Of(tariff.TaxPercent?.Value ?? 0).DividedBy(Percent);
        Total = ((Net + Tax) * new Fraction(BigInteger.Pow(10, tariff.Currency.Digits), 1)).Rounded;
    }

    /// <summary>What it consists of, without tax: prices and sewer in order of the file, then what is fixed.</summary>
    public ImmutableArray<BillLine> Lines { get; }

    /// <summary>All lines together.</summary>
    public Fraction Net { get; }

    /// <summary>The tax on them.</summary>
    public Fraction Tax { get; }

    /// <summary>What is to be paid, in the currency's minor unit.</summary>
    public BigInteger Total { get; }

    /// <summary>The bill of some dates.</summary>
    /// <param name="tariff">Its tariff.</param>
    /// <param name="first">Its first date, in days since 1970-01-01.</param>
    /// <param name="end">The first date after it.</param>
    /// <param name="litres">Dates with water and how much, in order.</param>
    public static BillSum Of(Tariff tariff, int first, int end, IEnumerable<(int Day, Fraction Litres)> litres)
    {
        var (prices, sewer) = (new Steps(tariff.Prices), new Steps(tariff.Sewer));
        var reached = Fraction.Zero;
        foreach (var (day, volume) in litres)
        {
            if (volume.Sign <= 0) continue;
            prices.Take(day, reached, volume);
            sewer.Take(day, reached, volume);
            reached += volume;
        }

        return new BillSum(tariff, [.. prices.Lines(BillLineKind.Price), .. sewer.Lines(BillLineKind.Sewer), .. Fixed(tariff, first, end)]);
    }

    private static IEnumerable<BillLine> Fixed(Tariff tariff, int first, int end)
    {
        if (tariff.Fixed is not { Value: var charge }) yield break;
        var months = Fraction.Of(tariff.Bills.Months);
        var quantity = charge.Per switch
        {
            ChargePeriod.Day => Fraction.Of(end - first),
            ChargePeriod.Month => months,
            ChargePeriod.Year => months.DividedBy(MonthsInYear),
            _ => Fraction.Of(1),
        };
        yield return new BillLine(BillLineKind.Fixed, quantity, Line: null, charge.Amount, quantity * Fraction.Of(charge.Amount));
    }

    /// <summary>What goes through the lines of one kind.</summary>
    private sealed class Steps(ImmutableArray<PriceLine> lines)
    {
        private readonly DayPattern?[] _dates =
            [.. lines.Select(line => line.Dates is { } dates ? DayPattern.Of(days: [], dates, except: [], new NodaTime.LocalDate(2000, 1, 1)) : null)];

        private readonly Fraction[] _litres = new Fraction[lines.Length];

        /// <summary>Takes the water of a date.</summary>
        public void Take(int day, Fraction reached, Fraction litres)
        {
            var end = reached + litres;
            while (reached < end)
            {
                var (at, next) = (-1, end);
                for (var index = 0; index < lines.Length; index++)
                {
                    if (_dates[index]?.IsDue(day) == false) continue;
                    if (lines[index].AboveLitres > reached) next = Fraction.Min(next, lines[index].AboveLitres);
                    else if (at < 0 || IsBefore(index, at)) at = index;
                }

                if (at >= 0) _litres[at] += next - reached;
                reached = next;
            }
        }

        /// <summary>The lines that something went through.</summary>
        public IEnumerable<BillLine> Lines(BillLineKind kind) => lines.Index().Where(entry => _litres[entry.Index].Sign > 0).Select(entry =>
        {
            var units = _litres[entry.Index] / Fraction.Of(entry.Item.Unit);
            return new BillLine(kind, units, entry.Item, entry.Item.Amount, units * Fraction.Of(entry.Item.Amount));
        });

        private bool IsBefore(int index, int other) => lines[index].AboveLitres > lines[other].AboveLitres
            || (lines[index].AboveLitres == lines[other].AboveLitres && lines[index].Dates is not null);
    }
}

/// <summary>What a line of a bill is for.</summary>
internal enum BillLineKind
{
    /// <summary>Water.</summary>
    Price,

    /// <summary>Water as it leaves again.</summary>
    Sewer,

    /// <summary>Whatever is used.</summary>
    Fixed,
}

/// <summary>A line of a bill.</summary>
/// <param name="Kind">What it is for.</param>
/// <param name="Quantity">In units of the line; of what is fixed, days, months, years or bills.</param>
/// <param name="Line">The line of the tariff; null for what is fixed.</param>
/// <param name="Price">For one of them.</param>
/// <param name="Amount">Both multiplied, in the currency.</param>
internal sealed record BillLine(BillLineKind Kind, Fraction Quantity, PriceLine? Line, decimal Price, Fraction Amount);
