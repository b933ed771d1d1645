using System.Text.Json;
using WaterScript.Answers.Advise;
using WaterScript.Tests.Binding;
using Xunit;

namespace WaterScript.Tests.Answers.Advise;

/// <summary>The advice against numbers worked out by hand.</summary>
public sealed class WateringAdviceTests
{
    /// <summary>July: 6 · 0.95 = 5.7 mm/day; rain of 50 mm counts as 20. Loam holds 155 mm/m, in 30 cm 46.5 mm, of which 40 % are 18.6: 3 days.</summary>
    private const string July = "climate { jul et 6 mm/day, rain 50 mm }\n";

    [Fact]
    public void Need_interval_and_time()
    {
        var month = Assert.Single(Of("rate 15 mm/h; efficiency 80 %; soil loam; plants own").Months);
        Assert.Equal((176.7m, 20m, 156.7m), (month.Demand, month.Weather.EffectiveRain, month.Need));
        var depth = 3 * (5.7m - (20m / 31));
        Assert.Equal((3, depth, 1), (month.Watering!.IntervalDays, month.Watering.Depth, month.Watering.TimesADay));
        Assert.Equal(decimal.Round(depth * 3600 / (15 * 0.8m)), month.Watering.Seconds);
    }

    /// <summary>Loam takes in 8.89 mm/h and holds 7.62 mm on level ground: at 40 mm/h for 14 min 41 s. 15.165 mm take 22 min 45 s, so two pieces.</summary>
    [Fact]
    public void A_time_that_would_run_off_comes_in_pieces()
    {
        var watering = Assert.Single(Of("rate 40 mm/h; soil loam; plants own").Months).Watering!;
        Assert.Equal(1365, watering.Seconds);
        Assert.Equal(new AdvisedCycle(2, 683, 2391), watering.Cycle);
    }

    /// <summary>
    /// Loam holds 155 mm/m: 7.75 mm in 5 cm, of which 40 % are 3.1; a day uses 5.7, so 2 times of 2.85. In 2 cm 1.24 mm are usable: 5.7 / 1.24 = 4.6, 5 times.
    /// </summary>
    [Theory]
    [InlineData("rate 15 mm/h; plants own", null, 1)] // nothing is known of the ground
    [InlineData("rate 15 mm/h; soil loam; plants shallow", 1, 2)]
    [InlineData("rate 15 mm/h; soil loam; plants very-shallow", 1, 5)]
    public void Without_ground_a_day_is_meant_and_little_ground_is_watered_more_often(string zone, int? interval, int times)
    {
        var watering = Assert.Single(Of(zone).Months).Watering!;
        Assert.Equal((interval, times), (watering.IntervalDays, watering.TimesADay));
        Assert.Equal((5.7m - (20m / 31)) / times, watering.Depth);
        if (times > 1) Assert.Contains($"  day, {times} times  ", AdviceTable.Of(Advice(zone)), StringComparison.Ordinal);
    }

    /// <summary>15.1645 mm at 40 mm/h are 22 min 45 s, 23 min; at most 14 run at once: twice 12 min, and 12 · 31.11 / 8.89 = 42 min of soak.</summary>
    [Fact]
    public void A_table_has_whole_minutes() => Assert.Contains(
        "  3 days  23 min, cycle 12 min soak 42 min\n", AdviceTable.Of(Advice("rate 40 mm/h; soil loam; plants own")), StringComparison.Ordinal);

    /// <summary>What one command advises the other finds fault with nowhere: neither with an interval of 22 days nor with several times a day.</summary>
    [Theory]
    [InlineData("rate 15 mm/h; soil loam; plants deep")]
    [InlineData("rate 15 mm/h; soil loam; plants own")]
    [InlineData("rate 15 mm/h; soil sand; plants deep")]
    [InlineData("rate 40 mm/h; soil clay; plants own")]
    [InlineData("rate 15 mm/h; soil loam; plants very-shallow")]
    [InlineData("rate 15 mm/h; plants own; efficiency 70 %")]
    public void Advice_that_is_followed_leaves_nothing_to_find(string zone)
    {
        const string climate = "climate { may et 3 mm/day, rain 50 mm; jun et 4 mm/day, rain 20 mm; jul et 6 mm/day, rain 5 mm; aug et 5 mm/day, rain 5 mm }\n";
        foreach (var month in Of(zone, climate).Months)
        {
            var watering = month.Watering!.InMinutes();
            var name = Language.MonthNames.All[month.Weather.Month - 1];
            var length = $"{watering.Seconds} s";
            var step = watering.Cycle is { } cycle ? $"cycle {cycle.Seconds} s soak {cycle.Soak} s {{ water lawn for {length} }}" : $"water lawn for {length}";
            var text = $"site plot {{ timezone Europe/Lisbon; effective 2026-03-01 }}\n{climate}{Plants}zone lawn {{ output 1; {zone} }}\n"
                + $"schedule s {{ every {watering.IntervalDays ?? 1} days; from 1 {name} to last {name}; start at 00:30; "
                + $"repeat every {24 / watering.TimesADay} h for {watering.TimesADay} passes; steps {{ {step} }} }}";
            var found = Linting.Lint.Of(text.Replace("every 1 days", "every day", StringComparison.Ordinal)).Findings
                .Where(finding => finding.Rule.Category == WaterScript.Diagnostics.RuleCategory.PlantsAndSoil);
            Assert.Empty(found.Select(finding => $"{name}: {finding.Heading}\n{finding.Details}\n{text}"));
        }
    }

    [Theory]
    [InlineData(July, "rate 15 mm/h", "no plants given")]
    [InlineData(July, "plants own", "no application rate given")]
    [InlineData("", "rate 15 mm/h; plants own", "no climate given")]
    [InlineData("climate { jul 16 C to 28 C }\n", "rate 15 mm/h; plants own", "no location given")]
    [InlineData("climate { jul rain 30 mm }\n", "rate 15 mm/h; plants own", "no temperatures given")]
    public void What_lacks_is_said(string climate, string zone, string lacks)
    {
        Assert.Equal(lacks, Of(zone, climate).Lacks);
        Assert.Contains($"No advice for lawn ({lacks})", AdviceTable.Of(Advice(zone, climate)), StringComparison.Ordinal);
    }

    /// <summary>Every third day from 1 to 31 July, 11 times 15 mm/h for 1 h.</summary>
    [Fact]
    public void What_is_given_is_the_mean_of_a_year() =>
        Assert.Equal(165, Math.Round(Assert.Single(Of("rate 15 mm/h; soil loam; plants own").Months).Given, 6));

    [Fact]
    public void The_block_to_paste_is_read_and_laid_out()
    {
        var advice = Advice("rate 15 mm/h; plants own", "climate { apr et 2 mm/day; jul et 6 mm/day, rain 50 mm }\nscale advised { jul 90 % }\n");
        var text = AdviceTable.Of(advice);
        var block = Assert.Single(text.Split('\n'), line => line.StartsWith("To paste:  ", StringComparison.Ordinal))["To paste:  ".Length..];
        Assert.Equal("scale advised-2 { apr 38 %; jul 100 % }", block);
        Expect.Fine(block);
    }

    [Fact]
    public void Inches_stay_inches()
    {
        var text = AdviceTable.Of(Advice("rate 0.6 in/h; plants own", "climate { jul et 0.24 in/day, rain 2 in }\n"));
        Assert.Contains("in a month  ETo a day", text, StringComparison.Ordinal);
        Assert.Contains("0.60 in/h", text, StringComparison.Ordinal);
    }

    [Fact]
    public void The_json_has_the_same_numbers()
    {
        using var stream = new MemoryStream();
        AdviceJson.Write(Advice("rate 40 mm/h; soil loam; plants own"), stream);
        using var json = JsonDocument.Parse(stream.ToArray());
        var month = json.RootElement.GetProperty("zones")[0].GetProperty("months")[0];
        Assert.Equal((7, 3, 1365, 683, 2391), (Whole("month"), Whole("interval_days"), Whole("run_s"), Whole("cycle_s"), Whole("soak_s")));
        Assert.Equal(156.7m, month.GetProperty("need_mm").GetDecimal());
        Assert.Equal(6m, json.RootElement.GetProperty("climate")[0].GetProperty("et_mm_per_day").GetDecimal());
        Assert.Equal(100m, json.RootElement.GetProperty("scale").GetProperty("months_percent").GetProperty("jul").GetDecimal());

        int Whole(string key) => month.GetProperty(key).GetInt32();
    }

    private const string Plants = """
        plants own { coefficient 0.95; roots 30 cm; allowed-depletion 40 % }
        plants shallow { coefficient 0.95; roots 5 cm; allowed-depletion 40 % }
        plants very-shallow { coefficient 0.95; roots 2 cm; allowed-depletion 40 % }
        plants deep { coefficient 0.65; roots 1.2 m; allowed-depletion 50 % }

        """;

    private static ZoneAdvice Of(string zone, string climate = July) => Assert.Single(Advice(zone, climate).Zones);

    private static WateringAdvice Advice(string zone, string climate = July) => WateringAdvice.Of(Expect.Fine(
        $"{climate}{Plants}zone lawn {{ output 1; {zone} }}\n"
            + $"schedule s {{ every 3 days; from 1 jul to 31 jul; start at 05:00; steps {{ water lawn for 1 h }} }}",
        "site plot { timezone Europe/Lisbon; effective 2026-03-01 }\n").Site!);
}
