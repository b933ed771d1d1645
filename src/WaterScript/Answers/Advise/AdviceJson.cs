using NodaTime.Text;
using WaterScript.Agronomy;
using WaterScript.Documents.Writers;
using WaterScript.Language;

namespace WaterScript.Answers.Advise;

/// <summary>The advice as JSON for programs, in units that the keys name.</summary>
public sealed class AdviceJson
{
    private const int Version = 1;
    private readonly WateringAdvice _advice;
    private readonly JsonWriter _json;

    private AdviceJson(WateringAdvice advice, JsonWriter json) => (_advice, _json) = (advice, json);

    /// <summary>Writes it.</summary>
    /// <param name="advice">The advice.</param>
    /// <param name="output">Stays open.</param>
    public static void Write(WateringAdvice advice, Stream output)
    {
        ArgumentNullException.ThrowIfNull(advice);
        using var json = new JsonWriter(output, isIndented: true);
        json.Map(new AdviceJson(advice, json).Content);
    }

    private void Content()
    {
        _json.Entry("waterscript_advice", Version);
        _json.Entry("site", _advice.Site.Name);
        _json.Entry("from", LocalDatePattern.Iso.Format(_advice.Horizon.From));
        _json.Entry("until", LocalDatePattern.Iso.Format(_advice.Horizon.Until));
        _json.List("climate", _advice.Year.OfType<MonthWeather>(), month => _json.Map(() => Month(month)));
        _json.List("zones", _advice.Zones, zone => _json.Map(() => Zone(zone)));
        if (AdviceWords.ScaleBlock(_advice) is { } block) _json.Map("scale", () => Scale(block));
        _json.List("assumed", AdviceWords.Assumed(_advice), _json.Text);
        _json.Entry("caution", AdviceWords.Caution);
    }

    private void Month(MonthWeather month)
    {
        _json.Entry("month", month.Month);
        _json.Entry("et_mm_per_day", month.Et);
        _json.Entry("method", month.Method switch { EtMethod.Given => "given", EtMethod.Hargreaves => "hargreaves", _ => "penman-monteith" });
        _json.Entry("rain_mm", Measure.Rounded(month.Rain));
        _json.Entry("effective_rain_mm", Measure.Rounded(month.EffectiveRain));
    }

    private void Zone(ZoneAdvice zone)
    {
        _json.Entry("name", zone.Zone.Name);
        _json.Entry("label", zone.Zone.Label);
        _json.Entry("lacks", zone.Lacks);
        _json.Entry("rate_mm_per_h", Measure.Rounded(zone.Zone.MillimetresPerHour));
        _json.Entry("share_that_counts_percent", Measure.Rounded(Uniformity.ShareThatCounts(zone.Zone)));
        if (RootZone.Of(zone.Zone) is { } roots)
        {
            _json.Entry("available_mm", Measure.Rounded((decimal)roots.Total));
            _json.Entry("readily_available_mm", Measure.Rounded((decimal)roots.Readily));
        }

        if (Infiltration.Of(zone.Zone) is { IsFasterThanIntake: true } ground) _json.Entry("longest_run_s", ground.LongestWholeRun);
        _json.List("months", zone.Months, month => _json.Map(() => Month(month)));
    }

    private void Month(MonthAdvice month)
    {
        _json.Entry("month", month.Weather.Month);
        _json.Entry("coefficient", month.Coefficient);
        _json.Entry("demand_mm", Measure.Rounded(month.Demand));
        _json.Entry("effective_rain_mm", Measure.Rounded(month.Weather.EffectiveRain));
        _json.Entry("need_mm", Measure.Rounded(month.Need));
        _json.Entry("given_mm", Measure.Rounded(month.Given));
        if (month.Watering is not { } watering) return;
        _json.Entry("interval_days", watering.IntervalDays);
        _json.EntryIf("more_than_once_a_day", watering.IsTooLittle);
        _json.Entry("depth_mm", Measure.Rounded(watering.Depth));
        _json.Entry("run_s", watering.Seconds);
        if (watering.Cycle is not { } cycle) return;
        _json.Entry("pieces", cycle.Pieces);
        _json.Entry("cycle_s", cycle.Seconds);
        _json.Entry("soak_s", cycle.Soak);
    }

    private void Scale(string block)
    {
        _json.Entry("name", AdviceWords.ScaleName(_advice.Site));
        _json.Map("months_percent", () =>
        {
            for (var month = 0; month < 12; month++) _json.Entry(MonthNames.All[month], _advice.Shares[month]);
        });
        _json.Entry("text", block);
    }
}
