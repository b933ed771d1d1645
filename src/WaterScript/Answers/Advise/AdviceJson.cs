using NodaTime.Text;
using WaterScript.Agronomy;
using WaterScript.Documents.Writers;
using WaterScript.Language;

namespace WaterScript.Answers.Advise;

/// <summary>The advice as JSON for programs, in units that the keys name.</summary>
internal static class AdviceJson
{
    /// <summary>Writes it.</summary>
    /// <param name="advice">The advice.</param>
    /// <param name="output">Stays open.</param>
    public static void Write(WateringAdvice advice, Stream output)
    {
        ArgumentNullException.ThrowIfNull(advice);
        JsonDocuments.Write(output, Of(advice), new AdviceContext(JsonDocuments.Options()).AdviceDocument);
    }

    private static AdviceDocument Of(WateringAdvice advice) => new()
    {
        Site = advice.Site.Name,
        TimeZoneData = advice.Site.TimeZoneData,
        From = LocalDatePattern.Iso.Format(advice.Horizon.From),
        Until = LocalDatePattern.Iso.Format(advice.Horizon.Until),
        Climate = advice.Year.OfType<MonthWeather>().Select(Of),
        Zones = advice.Zones.Select(Of),
        Scale = AdviceWords.ScaleLine(advice) is { } block ? ScaleOf(advice, block) : null,
        Assumed = AdviceWords.Assumed(advice),
        Caution = AdviceWords.Caution,
    };

    private static ClimateItem Of(MonthWeather month) => new()
    {
        Month = month.Month,
        Et = month.Et,
        Method = month.Method switch { EtMethod.Given => "given", EtMethod.Hargreaves => "hargreaves", _ => "penman-monteith" },
        Rain = Measure.Rounded(month.Rain),
        EffectiveRain = Measure.Rounded(month.EffectiveRain),
    };

    private static ZoneAdviceItem Of(ZoneAdvice zone)
    {
        var roots = RootZone.Of(zone.Zone);
        return new ZoneAdviceItem
        {
            Name = zone.Zone.Name,
            Label = zone.Zone.Label,
            Lacks = zone.Lacks,
            Rate = Measure.Rounded(zone.Zone.MillimetresPerHour),
            ShareThatCounts = Measure.Rounded(Uniformity.ShareThatCounts(zone.Zone)),
            Available = Measure.Rounded((decimal?)roots?.Total),
            ReadilyAvailable = Measure.Rounded((decimal?)roots?.Readily),
            LongestRun = Infiltration.Of(zone.Zone) is { IsFasterThanIntake: true } ground ? ground.LongestWholeRun : null,
            Months = zone.Months.Select(Of),
        };
    }

    private static MonthAdviceItem Of(MonthAdvice month) => new()
    {
        Month = month.Weather.Month,
        Coefficient = month.Coefficient,
        Demand = Measure.Rounded(month.Demand)!.Value,
        EffectiveRain = Measure.Rounded(month.Weather.EffectiveRain)!.Value,
        Need = Measure.Rounded(month.Need)!.Value,
        Given = Measure.Rounded(month.Given)!.Value,
        IntervalDays = month.Watering?.IntervalDays,
        TimesADay = month.Watering?.TimesADay,
        Depth = Measure.Rounded(month.Watering?.Depth),
        RunSeconds = month.Watering?.Seconds,
        Pieces = month.Watering?.Cycle?.Pieces,
        CycleSeconds = month.Watering?.Cycle?.Seconds,
        SoakSeconds = month.Watering?.Cycle?.Soak,
    };

    private static ScaleAdviceItem ScaleOf(WateringAdvice advice, string block) => new()
    {
        Name = AdviceWords.ScaleName(advice.Site),
        MonthsPercent = new OrderedDictionary<string, decimal>(
            MonthNames.All.Zip(advice.Shares).Where(month => month.Second is not null).Select(month => KeyValuePair.Create(month.First, month.Second!.Value))),
        Text = block,
    };
}
