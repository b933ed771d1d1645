using System.Globalization;
using System.Text.Json.Nodes;
using WaterScript.Tests.Documentation;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>What two versions cost, worked out by hand and apart.</summary>
public sealed class CostDiffTests : Workshop
{
    /// <summary>100 L a day are 36.5 m3 a year, 73.00 at 2 a cubic metre; months of 3.1, 2.8 and 3 m3 make whole cents, so no bill is rounded.</summary>
    private const string Plot = """
        site plot "Plot" { timezone UTC; effective 2026-01-01 }
        tariff town { currency EUR; price 2 per m3 }
        supply tap "Tap" { tariff town }
        zone lawn "Lawn" { output 1; supply tap; flow 10 L/min }
        restriction rule "Town rule" { from 1 jun to 30 sep; at most 4 m3 a month }
        schedule s {
          every day
          start at 06:00
          steps { water lawn for 10 min }
        }
        """;

    private static string Words(string text) => string.Join(' ', text.Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries));

    private string Diff(string old, string @new, string options = "")
    {
        Write("old.water", old);
        Write("new.water", @new);
        return Words(RunLine("diff old.water new.water " + options).Output);
    }

    /// <summary>By hand: half as much again; July has 31 days. 2 becomes 3 with the same 36.5 m3; 1 m3 a month beside them is 12 m3, 24.00.</summary>
    [Theory]
    [InlineData("for 10 min", "for 15 min", "Costs: Tap, bills of 2026: 73.00 → 109.50 EUR (+36.50); watering 73.00 → 109.50 (+50 %) "
        + "Allowance: Town rule, Jul 2026: 3.10 → 4.65 of 4 m3, 0.65 too much")]
    [InlineData("for 10 min", "for 5 min", "Costs: Tap, bills of 2026: 73.00 → 36.50 EUR (−36.50); watering 73.00 → 36.50 (−50 %) "
        + "Allowance: Town rule, Jul 2026: 3.10 → 1.55 of 4 m3, 2.45 left")]
    [InlineData("price 2 per m3", "price 3 per m3", "Costs: tariff town changed (new.water:2): Tap, bills of 2026: 73.00 → 109.50 EUR (+36.50); "
        + "watering 73.00 → 109.50 (+50 %); the watering is the same")]
    [InlineData("{ tariff town }", "{ tariff town; other-use 1 m3 a month }",
        "Costs: Tap, bills of 2026: 73.00 → 97.00 EUR (+24.00); watering 73.00, the same")]
    [InlineData("{ tariff town }", "{ flow 20 L/min }", "Costs: Tap, bills of 2026: no tariff, was 73.00 EUR; watering 73.00")]
    [InlineData("currency EUR", "currency USD", "Tap, bills of 2026: 73.00 EUR → 73.00 USD; watering 73.00 EUR → 73.00 USD; the watering is the same")]
    [InlineData("at most 4 m3", "at most 3000 L", "Allowance: Town rule, Jul 2026: 3100 of 4 m3 → 3100 of 3000 L, 100 too much")]
    [InlineData("every day", "every day; except 2026-07-01 to 2026-07-31",
        "Allowance: Town rule: 3.10 in Jul 2026 → 3.10 in Aug 2026, of 4 m3, 0.90 left")]
    [InlineData("at most 4 m3 a month", "at most 4 m3 a month; at most 100 m3 a year", "Allowance: Town rule, 2026: 12.20 of 100 m3, 87.80 left")]
    public void It_says_what_is_paid_otherwise(string old, string @new, string text) =>
        Assert.Contains(text, Diff(Plot, Plot.Replace(old, @new, StringComparison.Ordinal)), StringComparison.Ordinal);

    [Theory]
    [InlineData("zone lawn \"Lawn\"", "zone lawn \"Grass\"")]
    [InlineData("supply tap", "supply main")] // Both where it is and where it is named.
    [InlineData("town", "city")]
    public void What_costs_the_same_is_not_said(string old, string @new)
    {
        var output = Diff(Plot, Plot.Replace(old, @new, StringComparison.Ordinal));
        Assert.DoesNotContain("Costs:", output, StringComparison.Ordinal);
        Assert.DoesNotContain("Allowance:", output, StringComparison.Ordinal);
    }

    /// <summary>By hand: in 2026 it waters as before, and 2027 has 31 days of twice 0.1 m3 more: 12.40 of 73.00.</summary>
    [Fact]
    public void A_year_that_is_not_as_the_first_is_shown_too() => Assert.Contains(
        "Costs: Tap, bills of 2026: 73.00 EUR, the same; watering 73.00, the same "
        + "Tap, bills of 2027: 73.00 → 85.40 EUR (+12.40); watering 73.00 → 85.40 (+17 %)",
        Diff(Plot, Plot + "\nschedule t { every day; from 2027-07-01 to 2027-07-31; start at 08:00; steps { water lawn for 20 min } }\n"),
        StringComparison.Ordinal);

    /// <summary>A leap day makes a year dearer by less than 1 %: 2028 is not shown.</summary>
    [Fact]
    public void A_year_that_is_nearly_as_the_first_is_not()
    {
        var output = Diff(Plot, Plot.Replace("for 10 min", "for 15 min", StringComparison.Ordinal), "--until 2029-01-01");
        Assert.Contains("bills of 2026", output, StringComparison.Ordinal);
        Assert.DoesNotContain("bills of 2027", output, StringComparison.Ordinal);
        Assert.DoesNotContain("bills of 2028", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--from 2026-02-01", "bills of 2027")]
    [InlineData("--until 2026-12-31", "")]
    [InlineData("--from 2025-06-01 --until 2027-01-01", "bills of 2026")]
    public void Only_years_that_are_compared_whole_have_costs(string dates, string shown)
    {
        var output = Diff(Plot, Plot.Replace("for 10 min", "for 15 min", StringComparison.Ordinal), dates);
        Assert.Equal(shown.Length > 0, output.Contains("Costs:", StringComparison.Ordinal));
        Assert.Contains(shown, output, StringComparison.Ordinal);
        Assert.Equal(shown.Length > 0 ? 1 : 0, output.Split("bills of").Length - 1);
    }

    [Fact]
    public void A_tariff_alone_makes_status_1_unless_something_else_is_asked_for()
    {
        var @new = Plot.Replace("price 2", "price 3", StringComparison.Ordinal);
        Assert.Contains("Plot: no change in the watering; costs change.", Diff(Plot, @new), StringComparison.Ordinal);
        Assert.Equal(1, RunLine("diff old.water new.water").ExitCode);
        foreach (var only in (string[])["water", "devices", "findings"])
        {
            var result = RunLine($"diff old.water new.water --only {only}");
            Assert.Equal(0, result.ExitCode);
            Assert.DoesNotContain("Costs:", result.Output, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_comment_has_rows_for_them()
    {
        var output = Diff(Plot, Plot.Replace("for 10 min", "for 15 min", StringComparison.Ordinal), "--report markdown")
            .Replace("\\", "", StringComparison.Ordinal);
        Assert.Contains("| Tap, bills of 2026 | 73.00 EUR | **109.50 EUR** |", output, StringComparison.Ordinal);
        Assert.Contains("| Tap, watering in them, 2026 | 73.00 EUR | **109.50 EUR** |", output, StringComparison.Ordinal);
        Assert.Contains("| Town rule, Jul 2026 | 3.10 of 4 m3 | **4.65 of 4 m3, 0.65 too much** |", output, StringComparison.Ordinal);
        output = Diff(Plot, Plot.Replace("for 10 min", "for 5 min", StringComparison.Ordinal), "--report markdown").Replace("\\", "", StringComparison.Ordinal);
        Assert.Contains("| Tap, bills of 2026 | 73.00 EUR | 36.50 EUR |", output, StringComparison.Ordinal);
    }

    /// <summary>The numbers are those that each version has by itself, year by year.</summary>
    [Fact]
    public void For_programs_every_year_is_there_as_usage_has_it()
    {
        Write("old.water", Plot);
        Write("new.water", Plot.Replace("for 10 min", "for 1000 s", StringComparison.Ordinal));
        var found = JsonNode.Parse(RunLine("diff old.water new.water --report json").Output)!;
        var costs = found["costs"]!.AsArray();
        Assert.Equal([2026, 2027], costs.Select(cost => (int)cost!["year"]!));
        foreach (var (name, side) in (IEnumerable<(string, string)>)[("old.water", "old"), ("new.water", "new")])
        {
            foreach (var cost in costs)
            {
                var usage = JsonNode.Parse(RunLine($"usage {name} --year {cost!["year"]} --report json").Output)!;
                var bills = usage["meters"]![0]!["bills"]!.AsArray();
                decimal Sum(string key) => bills.Sum(bill => decimal.Parse((string)bill![key]!, CultureInfo.InvariantCulture));
                Assert.Equal(Sum("bill").ToString("0.00", CultureInfo.InvariantCulture), (string?)cost[side + "_bills"]);
                Assert.Equal(Sum("cost").ToString("0.00", CultureInfo.InvariantCulture), (string?)cost[side + "_watering"]);
            }
        }

        var allowance = found["allowances"]![0]!;
        // 31 days of 10 L/min for 1000 s.
        Assert.Equal((3100m, 5166.666667m, 4000m, "2026-07-01"),
            ((decimal)allowance["old_used_l"]!, (decimal)allowance["new_used_l"]!, (decimal)allowance["new_limit_l"]!, (string?)allowance["new_from"]));
        Assert.True((bool)found["costs_changed"]!);
    }

    /// <summary>
    /// The terraces on town water, with 9 mm for the lawn and with 11: the bills were worked out apart from the compiler, in exact fractions, from the litres
    /// of each run.
    /// </summary>
    [Fact]
    public void The_terraces_cost_what_was_worked_out_apart()
    {
        var text = Repository.Read("examples/terraces.water").Replace("supply cistern {",
            "supply cistern \"Town water\" {\n  tariff town; other-use 12 m3 a month", StringComparison.Ordinal) + """

            tariff town { currency EUR; bills every 2 months from 2026-01-15; fixed 4.50 a month
              price 1.80 per m3; price 2.60 per m3 above 20 m3; price 3.10 per m3 above 20 m3 from 1 may to 30 sep; sewer 2.10 per m3; tax 7 % }
            restriction dry "Town rule" { from 1 jun to 30 sep; at most 30 m3 a month }
            """;
        Assert.Contains("with 9 mm", text, StringComparison.Ordinal);
        var output = Diff(text, text.Replace("with 9 mm", "with 11 mm", StringComparison.Ordinal));
        Assert.Contains("Town water, bills of 2026: 1335.55 → 1392.35 EUR (+56.80); watering 762.08 → 818.88 (+7 %)", output, StringComparison.Ordinal);
        Assert.Contains("Allowance: Town rule, Jul 2026: 29.77 → 32.01 of 30 m3, 2.01 too much", output, StringComparison.Ordinal);
    }
}
