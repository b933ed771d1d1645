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
        Assert.Equal((3, depth, false), (month.Watering!.IntervalDays, month.Watering.Depth, month.Watering.IsTooLittle));
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

    [Theory]
    [InlineData("rate 15 mm/h; plants own", null, false)] // nothing is known of the ground
    [InlineData("rate 15 mm/h; soil loam; plants shallow", 1, true)]
    public void Without_ground_a_day_is_meant_and_little_ground_is_told(string zone, int? interval, bool isTooLittle)
    {
        var watering = Assert.Single(Of(zone).Months).Watering!;
        Assert.Equal((interval, isTooLittle), (watering.IntervalDays, watering.IsTooLittle));
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
        var block = text[text.IndexOf("scale ", StringComparison.Ordinal)..text.IndexOf("}\n", StringComparison.Ordinal)] + "}\n";
        Assert.Equal("scale advised-2 {\n  apr 38 %\n  jul 100 %\n}\n", block);
        Expect.Fine(block);
    }

    [Fact]
    public void Inches_stay_inches()
    {
        var text = AdviceTable.Of(Advice("rate 0.6 in/h; plants own", "climate { jul et 0.24 in/day, rain 2 in }\n"));
        Assert.Contains("in/day", text, StringComparison.Ordinal);
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

    private static ZoneAdvice Of(string zone, string climate = July) => Assert.Single(Advice(zone, climate).Zones);

    private static WateringAdvice Advice(string zone, string climate = July) => WateringAdvice.Of(Expect.Fine(
        $"{climate}plants own {{ coefficient 0.95; roots 30 cm; allowed-depletion 40 % }}\nplants shallow " +
        $"{{ coefficient 0.95; roots 5 cm; allowed-depletion 40 % }}\n"
            + $"zone lawn {{ output 1; {zone} }}\nschedule s {{ every 3 days; from 1 jul to 31 jul; start at 05:00; steps {{ water lawn for 1 h }} }}",
        "site plot { timezone Europe/Lisbon; effective 2026-03-01 }\n").Site!);
}
