using System.ComponentModel;
using System.Text.Json.Serialization;
using WaterScript.Documents.Reports;
using WaterScript.Documents.Writers;

namespace WaterScript.Answers.Usage;

/// <summary>Water used, for programs, in units that the keys name.</summary>
[Description("`waterscript usage --report json`"), Shape(Of = "usage")]
internal sealed record UsageDocument
{
    [JsonPropertyName("waterscript_usage"), Description(JsonDocuments.FormMeaning), Shape(Only = JsonDocuments.Form)]
    public int Form { get; init; } = JsonDocuments.Form;

    [Shape(Of = ShapeAttribute.Name)]
    public required string Site { get; init; }

    [JsonPropertyName("timezone_data"), Description("Version of the time-zone data.")]
    public required string TimeZoneData { get; init; }

    [Description("SHA-256 of what was compiled, as in a timetable.")]
    public required string Sha256 { get; init; }

    [Shape(Of = ShapeAttribute.Date)]
    public required string From { get; init; }

    [Description("The first date that is not counted."), Shape(Of = ShapeAttribute.Date)]
    public required string Until { get; init; }

    [Description("What the water is listed by, one or two: zone, schedule, supply, day, week, month, year.")]
    public required IEnumerable<string> By { get; init; }

    [Description("Water at one place of each axis; what gets none has no row.")]
    public required IEnumerable<UsageItem> Rows { get; init; }

    [Description("Pumps, masters and injectors.")]
    public required IEnumerable<UsageDeviceItem> Devices { get; init; }

    [Description("Supplies with a tariff, and their bills.")]
    public required IEnumerable<UsageMeterItem> Meters { get; init; }

    [Description("Volumes that restrictions allow, each in the period of these dates in which most is used.")]
    public required IEnumerable<UsageAllowanceItem> Allowances { get; init; }

    [Description("Batteries, followed from the site's first date on.")]
    public required IEnumerable<UsageBatteryItem> Batteries { get; init; }

    [Description("Zones whose water is not counted.")]
    public required IEnumerable<UsageGapItem> Missing { get; init; }
}

/// <summary>Water at one place of each axis.</summary>
internal sealed record UsageItem
{
    [Description("A local date."), Shape(Of = ShapeAttribute.Date)]
    public string? Day { get; init; }

    [Description("A week, by its Monday."), Shape(Of = ShapeAttribute.Date)]
    public string? Week { get; init; }

    [Description("A month, such as 2026-04.")]
    public string? Month { get; init; }

    [Description("A year, such as 2026.")]
    public string? Year { get; init; }

    [Shape(Of = ShapeAttribute.Name)]
    public string? Zone { get; init; }

    [Shape(Of = ShapeAttribute.Name)]
    public string? Schedule { get; init; }

    [Description("Not there for zones without one."), Shape(Of = ShapeAttribute.Name)]
    public string? Supply { get; init; }

    [JsonPropertyName("volume_l"), Description("Flow times time; not there where no flow is known."), Shape(Least = 0)]
    public decimal? Volume { get; init; }

    [JsonPropertyName("in_part"), Description("Whether the flow of some of it is not known, so that it is more than that.")]
    public bool? InPart { get; init; }

    [JsonPropertyName("depth_mm"), Description("Of one zone, before any loss."), Shape(Least = 0)]
    public decimal? Depth { get; init; }

    [Description("Seconds in which zones are open, of all of them together."), Shape(Least = 0)]
    public required long Seconds { get; init; }

    [Description("How often zones open."), Shape(Least = 0)]
    public required long Openings { get; init; }

    [Description("What bills that end here are more for the watering; not by day or week, nor with more than one currency.")]
    public string? Cost { get; init; }
}

/// <summary>A volume that a restriction allows.</summary>
internal sealed record UsageAllowanceItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public required string Restriction { get; init; }

    [Shape(Words = ["day", "week", "month", "season", "year"])]
    public required string Period { get; init; }

    [Description("The first date of the period."), Shape(Of = ShapeAttribute.Date)]
    public required string From { get; init; }

    [Description("Where each zone counts for itself."), Shape(Of = ShapeAttribute.Name)]
    public string? Zone { get; init; }

    [JsonPropertyName("used_l"), Shape(Least = 0)]
    public required decimal Used { get; init; }

    [JsonPropertyName("limit_l"), Shape(Least = 0)]
    public required decimal Limit { get; init; }

    [Description("The line that allows it.")]
    public required PlaceItem Place { get; init; }
}

/// <summary>The battery of a controller.</summary>
internal sealed record UsageBatteryItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public required string Controller { get; init; }

    [JsonPropertyName("full_wh"), Description("What it holds when it is full."), Shape(Least = 0)]
    public required decimal Full { get; init; }

    [JsonPropertyName("drawn_wh"), Description("What is drawn on the dates that are asked for."), Shape(Least = 0)]
    public required decimal Drawn { get; init; }

    [JsonPropertyName("brought_wh"), Description("What its panel brings on them."), Shape(Least = 0)]
    public decimal? Brought { get; init; }

    [JsonPropertyName("least_wh"), Description("The least that is in it on them."), Shape(Least = 0)]
    public decimal? Least { get; init; }

    [Description("The date of that."), Shape(Of = ShapeAttribute.Date)]
    public string? LeastOn { get; init; }

    [Description("The fewest whole dates that it lasts without any sun, where that is fewer than are asked for."), Shape(Least = 0)]
    public int? DaysWithoutSun { get; init; }

    [Description("Where it is written.")]
    public required PlaceItem Place { get; init; }
}

/// <summary>A supply with a tariff.</summary>
internal sealed record UsageMeterItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public required string Supply { get; init; }

    [Shape(Of = ShapeAttribute.Name)]
    public required string Tariff { get; init; }

    [Description("ISO 4217.")]
    public required string Currency { get; init; }

    [Description("Those that end within the dates, and one that they cut.")]
    public required IEnumerable<UsageBillItem> Bills { get; init; }

    [JsonPropertyName("not_counted"), Description("Supplies with a tank that is filled through it, which is not counted."), Shape(Of = ShapeAttribute.Name)]
    public IEnumerable<string>? NotCounted { get; init; }
}

/// <summary>A bill. Amounts are in the currency, with all digits of its minor unit.</summary>
internal sealed record UsageBillItem
{
    [Shape(Of = ShapeAttribute.Date)]
    public required string From { get; init; }

    [Description("The first date that is not counted."), Shape(Of = ShapeAttribute.Date)]
    public required string Until { get; init; }

    [JsonPropertyName("so_far"), Description("Whether the dates end before the bill does.")]
    public bool? SoFar { get; init; }

    [JsonPropertyName("watering_l"), Shape(Least = 0)]
    public required decimal Watering { get; init; }

    [JsonPropertyName("other_l"), Shape(Least = 0)]
    public required decimal Other { get; init; }

    [Description("What is to be paid.")]
    public required string Bill { get; init; }

    [Description("What would be to be paid without the watering.")]
    public required string Without { get; init; }

    [Description("What the watering costs: the difference.")]
    public required string Cost { get; init; }

    [Description("What the bill consists of, before tax.")]
    public required IEnumerable<UsageBillLineItem> Lines { get; init; }

    [Description("The tax, not rounded.")]
    public decimal? Tax { get; init; }

    [Description("The cost by zone, then by schedule.")]
    public required IEnumerable<UsageShareItem> Shares { get; init; }
}

/// <summary>A line of a bill.</summary>
internal sealed record UsageBillLineItem
{
    [Shape(Words = ["price", "sewer", "fixed"])]
    public required string Kind { get; init; }

    [Shape(Least = 0)]
    public required decimal Quantity { get; init; }

    [Description("Of what: a unit of volume, or day, month, year, bill.")]
    public required string Unit { get; init; }

    [Shape(Least = 0)]
    public required decimal Price { get; init; }

    [Description("Not rounded but to the sixth digit."), Shape(Least = 0)]
    public required decimal Amount { get; init; }
}

/// <summary>A share of a cost.</summary>
internal sealed record UsageShareItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public string? Zone { get; init; }

    [Shape(Of = ShapeAttribute.Name)]
    public string? Schedule { get; init; }

    [Description("A supply whose tank is refilled."), Shape(Of = ShapeAttribute.Name)]
    public string? Tank { get; init; }

    [Description("Beside which others a tank has this share."), Shape(Words = ["zones", "schedules"])]
    public string? Among { get; init; }

    public required string Amount { get; init; }
}

/// <summary>What a device does.</summary>
internal sealed record UsageDeviceItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public required string Name { get; init; }

    [Description("Seconds in which it is on."), Shape(Least = 0)]
    public required long Seconds { get; init; }

    [Shape(Least = 0)]
    public required long Starts { get; init; }

    [JsonPropertyName("energy_wh"), Description("What its motor draws; absent where its power is not known."), Shape(Least = 0)]
    public decimal? Energy { get; init; }
}

/// <summary>What is missing.</summary>
internal sealed record UsageGapItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public required string Zone { get; init; }

    [Description("The property to add."), Shape(Words = ["flow"])]
    public required string What { get; init; }

    public required PlaceItem Place { get; init; }
}

/// <summary>How it is written.</summary>
[JsonSerializable(typeof(UsageDocument))]
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
internal sealed partial class UsageContext : JsonSerializerContext;
