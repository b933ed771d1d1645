using System.Globalization;
using NodaTime;
using WaterScript.Answers.Usage;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Simulation.Water;
using WaterScript.Tests.Simulation;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Answers.Usage;

/// <summary>What the refill of a tank brings, by hand and second by second.</summary>
public sealed class RefillTests
{
    private const int Days = 24;

    private static readonly int SitesEach = Samples.OfBatch(30);

    public static TheoryData<int> Batches => [.. Samples.Batches(4)];

    private static Site Read(string text) => RandomRunsTests.Read(text, out var errors) ?? throw new InvalidOperationException($"{errors}\n{text}");

    private static Dictionary<int, decimal> Refills(Site site, Horizon horizon) =>
        TankRefills.Of(site, horizon, tank => tank.FedBy is not null, new WorkBudget(long.MaxValue)) is [var only]
            ? only.Days.ToDictionary(day => day.Day, day => day.Litres)
            : throw new InvalidOperationException("no tank that can be followed");

    /// <summary>
    /// Each second by itself: the tank cannot be more than full, or less than empty; what comes in is what makes up for both. Between two levels it begins
    /// where the tank would fall below the lower in this second, or is there, and ends where it has the upper.
    /// </summary>
    [Theory]
    [MemberData(nameof(Batches))]
    public void Random_tanks_take_what_they_take_second_by_second(int batch)
    {
        var (brought, closed, dry) = (0, 0, 0);
        for (var number = batch * SitesEach; number < (batch + 1) * SitesEach; number++)
        {
            var random = new Random(5_200 + number);
            var text = TextOf(random);
            var site = Read(text);
            var horizon = Horizon.DaysFrom(site.Effective, Days);
            var expected = SecondBySecond(site, horizon, ref closed, ref dry);
            var actual = Refills(site, horizon);
            foreach (var day in actual.Keys.Concat(expected.Keys).Distinct().Where(day => day < DayOf(horizon.Until)))
            {
                var (was, now) = (expected.GetValueOrDefault(day) / 60, actual.GetValueOrDefault(day));
                Assert.True(Math.Abs(was - now) < 0.000001m,
                    string.Create(CultureInfo.InvariantCulture, $"day {day}: {now} L, not {was} L\nnumber {number}\n{text}"));
                if (now > 0) brought++;
            }
        }

        Assert.True(brought > SitesEach * 3, $"only {brought} days with a refill");
        Assert.True(closed > SitesEach && dry > 0, $"only {closed} s in which it closed, {dry} s in which the tank was empty");
    }

    private static string TextOf(Random random)
    {
        string Number(int least, int most) => random.Next(least, most).ToString(CultureInfo.InvariantCulture);
        var levels = random.Next(2) == 0 ? "" : $" from {Number(20, 150)} L to {Number(151, 200)} L";
        var contains = random.Next(3) == 0 ? $"; contains {Number(0, 200)} L on 2026-03-{Number(22, 28)}" : "";
        return $$"""
            site plot { timezone Europe/Lisbon; effective 2026-03-20 }
            tariff town { currency EUR; price 2 per m3 }
            supply tap { tariff town }
            supply butt { tank 200 L; refill 0.{{Number(1, 99)}} L/min{{levels}}; fed-by tap{{contains}} }
            zone a { output 1; supply butt; flow {{Number(1, 20)}} L/min }
            zone b { output 2; supply butt; flow 0.{{Number(1, 99)}} L/min }
            schedule s {
              every {{Number(2, 9)}} days; start at 23:{{Number(10, 59)}}
              steps { water a for {{Number(1, 30)}} min; water b for {{Number(1, 90)}} min }
            }
            schedule t { every {{Number(2, 5)}} days; start at 00:30; steps { water b for {{Number(1, 200)}} min } }
            """;
    }

    private static Dictionary<int, decimal> SecondBySecond(Site site, Horizon horizon, ref int closed, ref int dry)
    {
        var supply = site.Supplies.Single(each => each.Name == "butt");
        var (full, refill) = (supply.Tank!.Value.Value.Value * 60, supply.Refill!.Value.Value.Value);
        var (lower, upper) = (supply.RefillFrom?.Value * 60, supply.RefillTo?.Value * 60);
        var (from, until) = (SecondOf(site, horizon.From), SecondOf(site, horizon.Until));
        var reading = supply.ContainsOn is { } on ? SecondOf(site, on.Value) : long.MinValue;
        var drawn = new decimal[until - from];
        var open = new HashSet<(int, long)>();
        foreach (var run in ReferenceRuns.Of(site, horizon))
        {
            for (var second = run.Start; second < Math.Min(run.End, until); second++)
                if (open.Add((run.Zone, second))) drawn[second - from] += site.Zones[run.Zone].Flow!.Value.Value.Value;
        }

        var (level, isOn, sums, day, midnight) = (full, false, new Dictionary<int, decimal>(), DayOf(horizon.From), from);
        for (var second = from; second < until; second++)
        {
            if (second == midnight) midnight = SecondOf(site, new LocalDate(1970, 1, 1).PlusDays(++day));
            if (second == reading) (level, isOn) = (supply.Contains!.Value.Value.Value * 60, false);
            var draw = drawn[second - from];
            if (lower is { } low)
            {
                if (level >= upper) isOn = false;
                if (level <= low || level - draw < low) isOn = true;
            }

            var inflow = lower is null || isOn ? refill : 0;
            var after = level + inflow - draw;
            if (after > full) closed++;
            if (after < 0) dry++;
            var brought = after > full ? full - level + draw : inflow;
            if (brought > 0) sums[day - 1] = sums.GetValueOrDefault(day - 1) + brought;
            level = Math.Clamp(after, 0, full);
        }

        return sums;
    }

    private static long SecondOf(Site site, LocalDate date) => date.AtStartOfDayInZone(site.TimeZone).ToInstant().ToUnixTimeSeconds();

    private static int DayOf(LocalDate date) => Period.DaysBetween(new LocalDate(1970, 1, 1), date);

    /// <summary>
    /// By hand: 310 mm on 1 m2 in the 31 days of January are 10 L a day, 1/144 L/min. At 06:00 20 L are drawn in 2 min; the refill of 1 L/min and the rain
    /// bring them in 20 : (1 + 1/144) min, and for as many minutes the refill is open: 2880/145 L. From then on what runs over is rain.
    /// </summary>
    [Fact]
    public void Rain_fills_a_tank_too_and_what_runs_over_is_rain()
    {
        var months = string.Join('\n', "jan feb mar apr may jun jul aug sep oct nov dec".Split(' ').Select(month => $"  {month} rain 310 mm"));
        var site = Read($$"""
            site plot { timezone UTC; effective 2026-01-01 }
            tariff town { currency EUR; price 2 per m3 }
            supply tap { tariff town }
            supply butt { tank 100 L; refill 1 L/min; catchment 1 m2 at 100 %; fed-by tap }
            climate {
            {{months}}
            }
            zone a { output 1; supply butt; flow 10 L/min }
            schedule s { every day; start at 06:00; steps { water a for 2 min } }
            """);
        var refills = Refills(site, Horizon.DaysFrom(new LocalDate(2026, 1, 1), 31));
        Assert.Equal(31, refills.Count);
        Assert.All(refills.Values, litres => Assert.Equal(2880m / 145, litres, 9));
    }

    /// <summary>
    /// By hand: 60 L are drawn from 23:50 to midnight; the refill of 1 L/min brings 10 L until then and 50 L after it: the first bill has 10 L, the second 60 L
    /// on each of 28 nights, of which the last leaves 50 L to the third.
    /// </summary>
    [Fact]
    public void What_flows_after_midnight_belongs_to_the_next_date_and_bill()
    {
        var site = Read("""
            site plot { timezone UTC; effective 2026-01-31 }
            tariff town { currency EUR; price 100 per m3 }
            supply tap { tariff town }
            supply butt "Butt" { tank 100 L; refill 1 L/min; fed-by tap }
            zone a { output 1; supply butt; flow 6 L/min }
            schedule s { every day; from 2026-01-31 to 2026-02-28; start at 23:50; steps { water a for 10 min } }
            """);
        var usage = WaterUsage.Of(site, new Horizon(new LocalDate(2026, 1, 31), new LocalDate(2026, 4, 1)), [UsageAxis.Zone]);
        var bills = Assert.Single(usage.Meters).Bills;
        Assert.Equal(["10", "1680", "50"], bills.Select(bill => bill.Litres.ToString(0)));
        Assert.Equal([100, 16800, 500], bills.Select(bill => (int)bill.Cost));
        // All of it falls to the tank, whose place is behind those of zones and schedules.
        var place = UsagePlaces.OfTank(UsageAxis.Zone, site.Supplies[1], site);
        Assert.Equal((2, "174.00"), (place, UsageCosts.Say(usage.Costs.On(UsageAxis.Zone, [place]), usage.Costs.Currency!)));
        Assert.Null(usage.Costs.On(UsageAxis.Zone, [0]));
        Assert.Equal(Fraction.Of(1740), usage.Rows.Aggregate(Fraction.Zero, (sum, row) => sum + row.Litres));
    }
}
