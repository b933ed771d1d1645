using System.Globalization;
using System.Numerics;
using NodaTime;
using WaterScript.Answers.Usage;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Simulation;
using WaterScript.Text.Lines;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Answers.Usage;

/// <summary>Bills: published rate tables, by hand, and litre by litre.</summary>
public sealed class BillTests
{
    private static readonly int TariffsEach = Samples.OfBatch(60);

    public static TheoryData<int> Batches => [.. Samples.Batches(5)];

    private static Site Read(string text) => RandomRunsTests.Read(text, out var errors) ?? throw new InvalidOperationException(errors);

    private static Tariff TariffOf(string lines) => Read($$"""
        site plot { timezone UTC; effective 2026-01-01 }
        tariff town { {{lines}} }
        supply tap { tariff town }
        zone lawn { output 1; flow 10 L/min }
        schedule s { manual; steps { water lawn for 1 min } }
        """).Supplies[0].Tariff!;

    /// <summary>
    /// Rates as they were published, second-hand; the totals of the first three are worked out by hand. Glendale, California, 2018: 2.61 a hundred cubic
    /// feet, 3.84 above 8, 3.99 above 15; 8 · 2.61 + 7 · 3.84 + 5 · 3.99. Mengíbar, Spain, a quarter: 9.31 and a cubic metre at 0.35, 0.70 above 18, 1.10
    /// above 30, 1.50 above 48; 9.31 + 6.30 + 8.40 + 19.80 + 18.00. Millville, New Jersey, a quarter: 30 with the first 10 000 gallons, then 3.50 a thousand;
    /// 30 + 4.2 · 3.50. Printed totals: Hi-Desert Water District, California, page on water rates, 4 units at 3.65, 4 at 6.17, fixed 20.75: 60.03. Urban
    /// Utilities, Queensland, how to calculate a business bill, 1000 m3 in a quarter: 74 at 0.793, the rest at 1.659, bulk water 3.122, access 58.77 and
    /// 141.72: 4917.41.
    /// </summary>
    [Theory]
    [InlineData("currency USD; price 2.61 per HCF; price 3.84 per HCF above 8 HCF; price 3.99 per HCF above 15 HCF", "20 HCF", "67.71")]
    [InlineData("currency EUR; bills every 3 months from 2026-01-01; fixed 9.31 a bill; price 0.35 per m3; price 0.70 per m3 above 18 m3;"
        + "price 1.10 per m3 above 30 m3; price 1.50 per m3 above 48 m3", "60 m3", "61.81")]
    [InlineData("currency USD; bills every 3 months from 2026-01-01; fixed 30 a bill; price 3.50 per kgal above 10 kgal", "14200 gal", "44.70")]
    [InlineData("currency USD; fixed 20.75 a month; price 3.65 per HCF; price 6.17 per HCF above 4 HCF", "8 HCF", "60.03")]
    [InlineData("currency AUD; bills every 3 months from 2026-01-01; fixed 200.49 a bill; price 0.793 per m3; price 1.659 per m3 above 74 m3;"
        + "sewer 3.122 per m3", "1000 m3", "4917.41")]
    public void Published_rates_make_the_bills_worked_out_by_hand(string lines, string volume, string total)
    {
        var tariff = TariffOf(lines);
        var (number, unit) = (volume.Split(' ')[0], Units.Find(volume.Split(' ')[1], Dimension.Volume)!);
        var litres = Fraction.Of(new Quantity(decimal.Parse(number, CultureInfo.InvariantCulture), unit));
        var (first, end) = BillCalendar.Of(tariff.Bills, 20_500);
        // In whichever pieces it flows.
        foreach (var parts in (int[])[1, 7])
        {
            var days = Enumerable.Range(0, parts).Select(index => (first + index, litres.DividedBy(parts)));
            Assert.Equal(total, Fraction.Text(BillSum.Of(tariff, first, end, days).Total, 2));
        }
    }

    /// <summary>
    /// By hand: 20 m3 at 1.80, 54.183 m3 above them at the price of the summer, sewer on all of it, two months, 7 %:
    /// 1.07 · (36 + 54.183 · 3.10 + 74.183 · 2.10 + 9) = 394.5642.
    /// </summary>
    [Fact]
    public void A_bill_has_blocks_a_season_sewer_a_fixed_charge_and_tax()
    {
        var tariff = TariffOf("""
            currency EUR; bills every 2 months from 2026-01-15; fixed 4.50 a month; price 1.80 per m3; price 2.60 per m3 above 20 m3
            price 3.10 per m3 above 20 m3 from 1 may to 30 sep; sewer 2.10 per m3; tax 7 %
            """);
        var day = 20_588; // 15 May 2026
        var (first, end) = BillCalendar.Of(tariff.Bills, day);
        Assert.Equal((day, day + 61), (first, end));
        var sum = BillSum.Of(tariff, first, end, [(first, Fraction.Of(74_183))]);
        Assert.Equal(("39456", "368.7516", "25.8126"), (sum.Total.ToString(CultureInfo.InvariantCulture), sum.Net.ToString(4), sum.Tax.ToString(4)));
    }

    /// <summary>The dates of bills, from a calendar; leap day, new year, and dates before the one that is named.</summary>
    [Theory]
    [InlineData("bills every 2 months from 2026-01-15", "2026-05-15", "2026-05-15", "2026-07-15")]
    [InlineData("bills every 2 months from 2026-01-15", "2026-05-14", "2026-03-15", "2026-05-15")]
    [InlineData("bills every 2 months from 2026-01-15", "2025-01-14", "2024-11-15", "2025-01-15")]
    [InlineData("bills every 12 months from 2028-02-28", "2026-02-27", "2025-02-28", "2026-02-28")]
    [InlineData("bills every month", "2028-02-29", "2028-02-01", "2028-03-01")]
    [InlineData("bills every 3 months from 2026-12-01", "1999-12-31", "1999-12-01", "2000-03-01")]
    public void Bills_are_counted_from_a_date_in_both_directions(string bills, string date, string first, string end)
    {
        static int DayOf(string text) => Period.DaysBetween(new LocalDate(1970, 1, 1), NodaTime.Text.LocalDatePattern.Iso.Parse(text).Value);
        Assert.Equal((DayOf(first), DayOf(end)), BillCalendar.Of(TariffOf($"currency EUR; price 1 per m3; {bills}").Bills, DayOf(date)));
    }

    /// <summary>Random tariffs and uses: each litre is priced by itself, by the words of the reference, in decimals.</summary>
    [Theory]
    [MemberData(nameof(Batches))]
    public void A_bill_is_what_pricing_each_litre_makes(int batch)
    {
        var blocks = 0;
        for (var number = batch * TariffsEach; number < (batch + 1) * TariffsEach; number++)
        {
            var random = new Random(70_000 + number);
            var lines = LinesOf(random);
            var text = string.Join("; ", lines.Select(line => line.Text));
            var fixedPer = random.Next(4);
            var tariff = TariffOf($"currency EUR; bills every 2 months from 2026-06-10; tax 7.5 %; fixed 3.3 a {FixedWords[fixedPer]}; {text}");
            var first = new LocalDate(2026, 6, 10);
            var litres = Enumerable.Range(0, 61).Select(_ => random.Next(3) == 0 ? random.Next(90) : 0).ToArray();
            var net = FixedOf(fixedPer, days: 61);
            foreach (var kind in (string[])["price", "sewer"])
            {
                var reached = 0;
                for (var day = 0; day < litres.Length; day++)
                {
                    for (var litre = 0; litre < litres[day]; litre++, reached++) net += PriceOf(lines, kind, first.PlusDays(day), reached) / 1000;
                }

                blocks += lines.Count(line => line.Kind == kind && line.Above < reached);
            }

            var expected = (BigInteger)Math.Floor((net * 1.075m * 100) + 0.5m);
            var start = Period.DaysBetween(new LocalDate(1970, 1, 1), first);
            var actual = BillSum.Of(tariff, start, start + 61, litres.Select((volume, day) => (start + day, Fraction.Of(volume))));
            Assert.True(actual.Total == expected, $"{actual.Total}, not {expected}\nnumber {number}: {text}");
        }

        Assert.True(blocks > TariffsEach, $"only {blocks} lines in use");
    }

    private static readonly string[] FixedWords = ["day", "month", "year", "bill"];

    private static decimal FixedOf(int per, int days) => per switch { 0 => 3.3m * days, 1 => 3.3m * 2, 2 => 3.3m * 2 / 12, _ => 3.3m };

    private sealed record Line(string Kind, decimal Price, int Above, (LocalDate First, LocalDate Last)? Dates, string Text);

    /// <summary>For each kind up to four lines, no two of which hold for the same water.</summary>
    private static List<Line> LinesOf(Random random)
    {
        var lines = new List<Line>();
        foreach (var kind in (string[])["price", "sewer"])
        {
            foreach (var above in (int[])[0, 100, 350])
            {
                if (random.Next(3) > 0) lines.Add(Make(kind, above, null));
                if (random.Next(3) > 0) continue;
                var first = random.Next(1, 20);
                lines.Add(Make(kind, above, (new LocalDate(2026, 7, first), new LocalDate(2026, 7, first + random.Next(10)))));
            }
        }

        if (lines.All(line => line.Kind != "price")) lines.Add(Make("price", 100, null));
        return lines;

        Line Make(string kind, int above, (LocalDate First, LocalDate Last)? dates)
        {
            var price = random.Next(1, 400) / 100m;
            var text = string.Create(CultureInfo.InvariantCulture, $"{kind} {price} per m3");
            if (above > 0) text += string.Create(CultureInfo.InvariantCulture, $" above {above} L");
            if (dates is var (first, last)) text += string.Create(CultureInfo.InvariantCulture, $" from {first.Day} jul to {last.Day} jul");
            return new Line(kind, price, above, dates, text);
        }
    }

    /// <summary>Of the lines in force the one with the greatest volume that is reached; one with dates before one without; none: free.</summary>
    private static decimal PriceOf(List<Line> lines, string kind, LocalDate date, int reached) => lines
        .Where(line => line.Kind == kind && line.Above <= reached && (line.Dates is not var (first, last) || (first <= date && date <= last)))
        .OrderByDescending(line => line.Above).ThenByDescending(line => line.Dates is not null)
        .Select(line => line.Price).FirstOrDefault();

    /// <summary>
    /// 100 L a day for each of two zones, and 31 or 30 times that: 6.2 m3 in July at 2 a cubic metre, with 3.1 m3 of other use under it: 12.40, halves of it
    /// each; August the same. The butt is full again within ten minutes of each 10 L: 160 L in July, 150 L in August; by hand.
    /// </summary>
    private const string Plot = """
        site plot { timezone UTC; effective 2026-07-01 }
        tariff town { currency EUR; fixed 5 a bill; price 2 per m3; price 1 per m3 above 10 m3 }
        supply tap "Tap" { tariff town; other-use 3.1 m3 a month }
        supply butt { tank 1 m3; refill 1 L/min; fed-by tap }
        zone lawn "Lawn" { output 1; supply tap; flow 10 L/min }
        zone beds "Beds" { output 2; supply tap; flow 5 L/min }
        zone pots "Pots" { output 3; supply butt; flow 5 L/min }
        schedule s { every day; start at 06:00; steps { water lawn for 10 min } }
        schedule t { every day; start at 07:00; steps { water beds for 20 min } }
        schedule u { every 2 days; start at 09:00; steps { water pots for 2 min } }
        """;

    private static string[] Lines(string text, LocalDate from, LocalDate until, int? columns, params UsageAxis[] by)
    {
        var usage = WaterUsage.Of(Read(text), new Horizon(from, until), [.. by]);
        var output = new StringWriter(CultureInfo.InvariantCulture);
        UsageText.Write(usage, showsAll: false, columns, new PlainLines(output));
        return output.ToString().Split('\n');
    }

    [Fact]
    public void Costs_stand_in_the_month_of_the_bill_and_are_shared_by_litres() => Assert.Equal(
        [
            "plot, 1 Jul (effective) to 19 Sep 2026, L by month and zone.",
            "month      Lawn   Beds  Pots  butt (refill)  Total    EUR",
            "Jul 2026   3100   3100   160              –   6360  12.72",
            "Aug        3100   3100   150              –   6350  12.70",
            "Sep        1900   1900   100              –   3900      –",
            "Total      8100   8100   410              –  16610  25.42",
            "mm            –      –     –              –",
            "EUR       12.40  12.40     –           0.62         25.42",
        ],
        Lines(Plot, new LocalDate(2026, 7, 1), new LocalDate(2026, 9, 20), columns: null, UsageAxis.Month, UsageAxis.Zone)[..8]);

    [Fact]
    public void A_supply_shows_its_bills_and_what_they_leave_out()
    {
        var lines = Lines(Plot, new LocalDate(2026, 7, 10), new LocalDate(2026, 9, 11), columns: null, UsageAxis.Supply);
        // By hand: 9.46 m3 at 2 and 5 fixed; without the watering 3.1 m3. So far ten thirtieths of 3.1 m3, 2 m3, and 50 L for five days.
        Assert.Contains("Tap, tariff town, EUR, bills every month", lines);
        Assert.Contains("1 Jul to 31 Jul 2026                6.360     3.100  23.92    11.20           12.72", lines);
        Assert.Contains("2 bills                            12.710     6.200  47.82    22.40           25.42", lines);
        Assert.Contains("1 Sep to 10 Sep 2026, so far        2.050     1.033  11.17     7.07            4.10", lines);
        Assert.DoesNotContain(lines, line => line.StartsWith("Not counted", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("refill 1 L/min; ", "")] // It is not known what flows in.
    [InlineData("refill 1 L/min; ", "refill 1 L/min; catchment 5 m2 at 80 %; ")] // Nor what the rain brings.
    [InlineData("zone lawn", "supply other { tank 10 L; refill 1 L/min; fed-by butt }\nzone lawn")] // Nor what another tank takes.
    public void A_tank_that_cannot_be_followed_is_left_out_and_named(string old, string @new) => Assert.Contains(
        Lines(Plot.Replace(old, @new, StringComparison.Ordinal), new LocalDate(2026, 7, 10), new LocalDate(2026, 9, 11), columns: null, UsageAxis.Supply),
        line => line.StartsWith("Not counted in the bills: what fills the tank of butt (site.water:4)", StringComparison.Ordinal));

    [Fact]
    public void Where_more_water_costs_less_watering_may_cost_less_than_nothing()
    {
        // By hand: 2 m3 on 1 July are free, and what the house takes after them, 3.1 m3, costs 1 and not 9; without them 0.2 m3 are free, 1.8 m3 cost 9.
        var site = Read("""
            site plot { timezone UTC; effective 2026-07-01 }
            tariff town { currency EUR; fixed 5 a bill; price 9 per m3; price 0 per m3 from 1 jul to 2 jul; price 1 per m3 above 2 m3 }
            supply tap { tariff town; other-use 3.1 m3 a month }
            zone lawn { output 1; flow 10 L/min }
            schedule s { on 2026-07-01; start at 06:00; steps { water lawn for 200 min } }
            """);
        var usage = WaterUsage.Of(site, new Horizon(new LocalDate(2026, 7, 1), new LocalDate(2026, 8, 1)), [UsageAxis.Zone]);
        var bill = Assert.Single(Assert.Single(usage.Meters).Bills);
        Assert.Equal((810, 2230, -1420), ((int)bill.With.Total, (int)bill.Without.Total, (int)bill.Cost));
        Assert.Equal("\u221214.20", UsageCosts.Say(usage.Costs.Total, usage.Costs.Currency!));
    }

    /// <summary>An even share of a cent cannot be: it goes to the first of the file. 0.0125 m3 at 4 are 5 cents for two zones alike.</summary>
    [Fact]
    public void A_cent_that_cannot_be_halved_goes_to_the_first()
    {
        var site = Read("""
            site plot { timezone UTC; effective 2026-07-01 }
            tariff town { currency EUR; price 4 per m3 }
            supply tap { tariff town }
            zone b { output 1; flow 6.25 L/min }
            zone a { output 2; flow 6.25 L/min }
            schedule s { on 2026-07-03; start at 06:00; steps { water a, b for 1 min } }
            """);
        var bill = Assert.Single(Assert.Single(WaterUsage.Of(site, new Horizon(new LocalDate(2026, 7, 1), new LocalDate(2026, 8, 1)),
            [UsageAxis.Zone]).Meters).Bills);
        Assert.Equal([3, 2], bill.ZoneShares.Values.Select(share => (int)share));
    }

    /// <summary>
    /// The terraces on town water. The numbers were worked out apart from the compiler, in exact fractions, from the litres that the runs of each date take.
    /// </summary>
    [Fact]
    public void The_terraces_cost_what_was_worked_out_apart()
    {
        var text = Repository.Read("examples/terraces.water") + """

            tariff town { currency EUR; bills every 2 months from 2026-01-15; fixed 4.50 a month
              price 1.80 per m3; price 2.60 per m3 above 20 m3; price 3.10 per m3 above 20 m3 from 1 may to 30 sep; sewer 2.10 per m3; tax 7 % }
            """;
        var site = Read(text.Replace("supply cistern {", "supply cistern {\n  tariff town; other-use 12 m3 a month", StringComparison.Ordinal));
        var usage = WaterUsage.Of(site, new Horizon(new LocalDate(2026, 3, 1), new LocalDate(2027, 1, 1)), [UsageAxis.Zone]);
        var bills = Assert.Single(usage.Meters).Complete.ToList();
        Assert.Equal([11321, 26265, 39457, 40326, 16186], bills.Select(bill => (int)bill.With.Total));
        Assert.Equal([11321, 11535, 11535, 11635, 11321], bills.Select(bill => (int)bill.Without.Total));
        Assert.Equal(["298.43", "30.69", "127.91", "49.26", "255.79"], site.Zones.Select(zone => UsageCosts.Say(usage.Costs.On(UsageAxis.Zone, [zone.Index]),
            usage.Costs.Currency!)));
    }
}
