using System.Numerics;
using WaterScript.Answers.Usage;
using WaterScript.Quantities;
using Xunit;

namespace WaterScript.Tests.Answers.Usage;

public sealed class TableRoundingTests
{
    /// <summary>Worked out by hand: 1.5 + 2.3 + 0.9 + 3.3 is 8; the floors add up to 6, so the largest remainders, .9 and .5, go up.</summary>
    [Fact]
    public void A_row_goes_by_largest_remainder() => Assert.Equal(
        [2, 2, 1, 3], TableRounding.Shares([Fraction.Of(1.5m), Fraction.Of(2.3m), Fraction.Of(0.9m), Fraction.Of(3.3m)]).Select(share => (int)share));

    /// <summary>By hand: three thirds of 2; of remainders alike the first go up.</summary>
    [Fact]
    public void Of_two_alike_the_first_goes_up() => Assert.Equal(
        [1, 1, 0], TableRounding.Shares([new Fraction(2, 3), new Fraction(2, 3), new Fraction(2, 3)]).Select(share => (int)share));

    [Fact]
    public void Half_goes_up() => Assert.Equal(new BigInteger(1), TableRounding.Of(new[,] { { new Fraction(1, 4), new Fraction(1, 4) } }).Total);

    /// <summary>Each of 2000 tables adds up, and no number of it is further away than its floor or ceiling.</summary>
    [Fact]
    public void Any_table_adds_up()
    {
        var random = new Random(7);
        for (var number = 0; number < Samples.Of(2_000); number++)
        {
            var cells = new Fraction[random.Next(1, 14), random.Next(1, 9)];
            for (var i = 0; i < cells.GetLength(0); i++)
            {
                for (var j = 0; j < cells.GetLength(1); j++)
                    cells[i, j] = random.Next(4) == 0 ? Fraction.Zero : new Fraction(random.Next(0, 400), random.Next(1, 12));
            }

            AddsUp(cells, TableRounding.Of(cells));
        }
    }

    /// <summary>A year of days and many zones take no time to speak of: what is not whole is settled along short circles.</summary>
    [Fact]
    public void A_long_table_is_rounded_too()
    {
        var cells = new Fraction[3_660, 9];
        for (var i = 0; i < cells.Length; i++) cells[i / 9, i % 9] = new Fraction(i * 7 % 100, 13);
        AddsUp(cells, TableRounding.Of(cells));
    }

    private static void AddsUp(Fraction[,] cells, TableRounding rounded)
    {
        var (rows, columns) = (cells.GetLength(0), cells.GetLength(1));
        var all = Fraction.Zero;
        for (var i = 0; i < rows; i++)
        {
            IsNear(Sum(Enumerable.Range(0, columns).Select(j => cells[i, j])), rounded.RowTotals[i]);
            Assert.Equal(rounded.RowTotals[i], Enumerable.Range(0, columns).Aggregate(BigInteger.Zero, (sum, j) => sum + rounded.Cells[i, j]));
            for (var j = 0; j < columns; j++)
            {
                IsNear(cells[i, j], rounded.Cells[i, j]);
                all += cells[i, j];
            }
        }

        for (var j = 0; j < columns; j++)
        {
            IsNear(Sum(Enumerable.Range(0, rows).Select(i => cells[i, j])), rounded.ColumnTotals[j]);
            Assert.Equal(rounded.ColumnTotals[j], Enumerable.Range(0, rows).Aggregate(BigInteger.Zero, (sum, i) => sum + rounded.Cells[i, j]));
        }

        Assert.Equal((all + new Fraction(1, 2)).Floor, rounded.Total);
        Assert.Equal(rounded.Total, rounded.RowTotals.Aggregate((sum, total) => sum + total));
    }

    private static Fraction Sum(IEnumerable<Fraction> parts) => parts.Aggregate(Fraction.Zero, (sum, part) => sum + part);

    private static void IsNear(Fraction exact, BigInteger rounded) =>
        Assert.True(rounded == exact.Floor || rounded == -(-exact).Floor, $"{exact} became {rounded}");
}
