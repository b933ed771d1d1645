using System.ComponentModel;
using System.Text.Json.Serialization;
using WaterScript.Documents.Writers;

namespace WaterScript.Answers.Advise;

/// <summary>The advice for programs, in units that the keys name.</summary>
[Description("`waterscript advise --report json`"), Shape(Of = "advise")]
internal sealed record AdviceDocument
{
    [JsonPropertyName("waterscript_advice"), Description(JsonDocuments.FormMeaning), Shape(Only = JsonDocuments.Form)]
    public int Form { get; init; } = JsonDocuments.Form;

    [Description("What people call it.")]
    public required string Site { get; init; }

    [JsonPropertyName("timezone_data"), Description("Version of the time-zone data.")]
    public required string TimeZoneData { get; init; }

    [Shape(Of = ShapeAttribute.Date)]
    public required string From { get; init; }

    [Description("The first date that is not counted."), Shape(Of = ShapeAttribute.Date)]
    public required string Until { get; init; }

    public required IEnumerable<ClimateItem> Climate { get; init; }

    public required IEnumerable<ZoneAdviceItem> Zones { get; init; }

    [Description("That would meet the need.")]
    public ScaleAdviceItem? Scale { get; init; }

    public required IEnumerable<string> Assumed { get; init; }

    public required string Caution { get; init; }
}

/// <summary>The weather of a month.</summary>
internal sealed record ClimateItem
{
    [Description("1 to 12."), Shape(Least = 1)]
    public required int Month { get; init; }

    [JsonPropertyName("et_mm_per_day"), Description("Reference evapotranspiration."), Shape(Least = 0)]
    public required decimal Et { get; init; }

    [Shape(Words = ["given", "hargreaves", "penman-monteith"])]
    public required string Method { get; init; }

    [JsonPropertyName("rain_mm"), Description("Of the month."), Shape(Least = 0)]
    public decimal? Rain { get; init; }

    [JsonPropertyName("effective_rain_mm"), Description("Of the month."), Shape(Least = 0)]
    public decimal? EffectiveRain { get; init; }
}

/// <summary>What a zone needs.</summary>
internal sealed record ZoneAdviceItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public required string Name { get; init; }

    [Description("What people read.")]
    public string? Label { get; init; }

    [Description("What is missing to say what it needs.")]
    public string? Lacks { get; init; }

    [JsonPropertyName("rate_mm_per_h"), Description("Application rate."), Shape(Least = 0)]
    public decimal? Rate { get; init; }

    [JsonPropertyName("share_that_counts_percent"), Description("Efficiency or uniformity."), Shape(Least = 0)]
    public decimal? ShareThatCounts { get; init; }

    [JsonPropertyName("available_mm"), Description("Available water of the root zone."), Shape(Least = 0)]
    public decimal? Available { get; init; }

    [JsonPropertyName("readily_available_mm"), Description("What plants take before they suffer."), Shape(Least = 0)]
    public decimal? ReadilyAvailable { get; init; }

    [JsonPropertyName("longest_run_s"), Description("From dry ground, without runoff."), Shape(Least = 0)]
    public long? LongestRun { get; init; }

    public required IEnumerable<MonthAdviceItem> Months { get; init; }
}

/// <summary>What a zone needs in a month.</summary>
internal sealed record MonthAdviceItem
{
    [Description("1 to 12."), Shape(Least = 1)]
    public required int Month { get; init; }

    [Description("Crop coefficient."), Shape(Least = 0)]
    public decimal? Coefficient { get; init; }

    [JsonPropertyName("demand_mm"), Description("Of the month."), Shape(Least = 0)]
    public required decimal Demand { get; init; }

    [JsonPropertyName("effective_rain_mm"), Description("Of the month."), Shape(Least = 0)]
    public required decimal EffectiveRain { get; init; }

    [JsonPropertyName("need_mm"), Description("Of the month."), Shape(Least = 0)]
    public required decimal Need { get; init; }

    [JsonPropertyName("given_mm"), Description("Of the month, mean of the years."), Shape(Least = 0)]
    public required decimal Given { get; init; }

    [Description("Days from one watering to the next."), Shape(Least = 1)]
    public int? IntervalDays { get; init; }

    [Description("Waterings on each of these days; more than one where the root zone does not hold a day's need."), Shape(Least = 1)]
    public int? TimesADay { get; init; }

    [JsonPropertyName("depth_mm"), Description("Of one watering."), Shape(Least = 0)]
    public decimal? Depth { get; init; }

    [JsonPropertyName("run_s"), Description("Of one watering."), Shape(Least = 0)]
    public long? RunSeconds { get; init; }

    [Description("Of a cycle."), Shape(Least = 1)]
    public long? Pieces { get; init; }

    [JsonPropertyName("cycle_s"), Description("One piece."), Shape(Least = 0)]
    public long? CycleSeconds { get; init; }

    [JsonPropertyName("soak_s"), Description("After each piece."), Shape(Least = 0)]
    public long? SoakSeconds { get; init; }
}

/// <summary>A scale that would meet the need.</summary>
internal sealed record ScaleAdviceItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public required string Name { get; init; }

    [Shape(Keys = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"])]
    public required IReadOnlyDictionary<string, decimal> MonthsPercent { get; init; }

    [Description("To be pasted into the file.")]
    public required string Text { get; init; }
}

/// <summary>How it is written.</summary>
[JsonSerializable(typeof(AdviceDocument))]
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
internal sealed partial class AdviceContext : JsonSerializerContext;
