using System.ComponentModel;
using System.Text.Json.Serialization;
using WaterScript.Documents.Reports;
using WaterScript.Documents.Writers;

namespace WaterScript.Answers.Diff;

/// <summary>What changes in the watering, for programs.</summary>
[Description("`waterscript diff --report json`"), Shape(Of = "diff")]
internal sealed record ChangesDocument
{
    [JsonPropertyName("waterscript_diff"), Description(JsonDocuments.FormMeaning), Shape(Only = JsonDocuments.Form)]
    public int Form { get; init; } = JsonDocuments.Form;

    [Shape(Of = ShapeAttribute.Name)]
    public required string Site { get; init; }

    [JsonPropertyName("timezone_data"), Description("Version of the time-zone data.")]
    public required string TimeZoneData { get; init; }

    [Shape(Of = ShapeAttribute.Date)]
    public required string From { get; init; }

    [Description("The first date that is not compared."), Shape(Of = ShapeAttribute.Date)]
    public required string Until { get; init; }

    public OverLimitItem? OverLimit { get; init; }

    [Description("What was compared, where that was not all."), Shape(Words = ["water", "devices", "findings"])]
    public string? Only { get; init; }

    [Description("Whether the watering changes.")]
    public required bool Changed { get; init; }

    [Description("Whether devices open, close or switch otherwise.")]
    public required bool DevicesChanged { get; init; }

    [Description("Whether findings come, go, or say something else.")]
    public required bool FindingsChanged { get; init; }

    [Description("Whether the watering costs more or less, or bills are others.")]
    public required bool CostsChanged { get; init; }

    [Description("Whether anything else of the site does.")]
    public required bool DescriptionChanged { get; init; }

    [Description("The first date on which any zone is watered otherwise."), Shape(Of = ShapeAttribute.Date)]
    public string? FirstDifferent { get; init; }

    [Description("Version of the time-zone data that the old timetable was made with, where that was another.")]
    public string? OldTimeZoneData { get; init; }

    [Description("Version of the time-zone data that is used, where the old timetable was made with another.")]
    public string? NewTimeZoneData { get; init; }

    [Description("What is written otherwise, apart from schedules.")]
    public required IEnumerable<CauseItem> Causes { get; init; }

    public required IEnumerable<ScheduleItem> Schedules { get; init; }

    [Description("Watering time and water, mean of the weeks of the season.")]
    public required IEnumerable<ZoneItem> Zones { get; init; }

    [Description("Bills that are others, a supply and a year that is compared whole each.")]
    public required IEnumerable<CostItem> Costs { get; init; }

    [Description("There was too much to add up, so that costs and allowances are not compared.")]
    public bool? CostsOverLimit { get; init; }

    [Description("Volumes that restrictions allow, of which something else is used, in the period in which that is most.")]
    public required IEnumerable<AllowanceItem> Allowances { get; init; }

    [Description("Outputs that open otherwise.")]
    public required IEnumerable<OpeningsItem> Openings { get; init; }

    [Description("Whether outputs, how they are switched, or what runs because of what are others.")]
    public required bool WiringChanged { get; init; }

    [Description("Findings of the new version only.")]
    public required IEnumerable<ChangedFindingItem> Appeared { get; init; }

    [Description("Findings of the old one only.")]
    public required IEnumerable<ChangedFindingItem> Gone { get; init; }

    [Description("Findings of the old one that the new one accepts.")]
    public required IEnumerable<ChangedFindingItem> Accepted { get; init; }

    [Description("Findings of both that do not say the same, as they are in the new one.")]
    public required IEnumerable<ChangedFindingItem> Turned { get; init; }
}

/// <summary>Something that is written otherwise.</summary>
internal sealed record CauseItem
{
    [Shape(Words = ["added", "removed", "renamed", "changed"])]
    public required string Change { get; init; }

    [Description("The kind of thing, in the word of the language.")]
    public required string Thing { get; init; }

    [Description("Its name, the new one where there are two.")]
    public string? Name { get; init; }

    [Description("The property or the kind of statement.")]
    public string? What { get; init; }

    public string? Old { get; init; }

    public string? New { get; init; }

    [Description("In the old version where it is gone.")]
    public required PlaceItem Place { get; init; }
}

/// <summary>What opens otherwise.</summary>
internal sealed record OpeningsItem
{
    [Description("A zone, or a pump, master or injector, with its kind before its name.")]
    public required string Output { get; init; }

    [Description("How many openings only one of the versions has."), Shape(Least = 1)]
    public required long Differ { get; init; }
}

/// <summary>A schedule that is not what it was.</summary>
internal sealed record ScheduleItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public required string Schedule { get; init; }

    [Shape(Words = ["added", "removed", "renamed", "changed"])]
    public required string Change { get; init; }

    [Shape(Of = ShapeAttribute.Name)]
    public string? OldName { get; init; }

    [Description("The first date on which it waters otherwise."), Shape(Of = ShapeAttribute.Date)]
    public string? FirstDifferent { get; init; }

    [Description("What is written otherwise.")]
    public required IEnumerable<TurnItem> Turns { get; init; }
}

/// <summary>Something that was one thing and is another.</summary>
internal sealed record TurnItem
{
    public required string What { get; init; }

    public string? Old { get; init; }

    public string? New { get; init; }

    [Description("What it does.")]
    public string? Effect { get; init; }

    [Description("Where it is written; in the old version where it is gone.")]
    public PlaceItem? Place { get; init; }
}

/// <summary>A zone that does not get what it got.</summary>
internal sealed record ZoneItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public required string Zone { get; init; }

    [JsonPropertyName("old_s_per_week"), Shape(Least = 0)]
    public long? OldSeconds { get; init; }

    [JsonPropertyName("new_s_per_week"), Shape(Least = 0)]
    public long? NewSeconds { get; init; }

    [JsonPropertyName("old_l_per_week"), Shape(Least = 0)]
    public decimal? OldLitres { get; init; }

    [JsonPropertyName("new_l_per_week"), Shape(Least = 0)]
    public decimal? NewLitres { get; init; }

    [JsonPropertyName("old_mm_per_week"), Shape(Least = 0)]
    public decimal? OldMillimetres { get; init; }

    [JsonPropertyName("new_mm_per_week"), Shape(Least = 0)]
    public decimal? NewMillimetres { get; init; }
}

/// <summary>The bills of a supply that end in a year.</summary>
[Shape(Of = "cost")]
internal sealed record CostItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public required string Supply { get; init; }

    [Description("The year of the calendar.")]
    public required int Year { get; init; }

    [Description("Currency of the old amounts.")]
    public string? OldCurrency { get; init; }

    [Description("Currency of the new amounts.")]
    public string? NewCurrency { get; init; }

    [Description("All bills together; absent where the supply had no tariff.")]
    public string? OldBills { get; init; }

    [Description("All bills together; absent where the supply has no tariff any more.")]
    public string? NewBills { get; init; }

    [Description("What they were more for the watering.")]
    public string? OldWatering { get; init; }

    [Description("What they are more for the watering.")]
    public string? NewWatering { get; init; }

    [Description("Where the tariff says something else.")]
    public PlaceItem? Tariff { get; init; }
}

/// <summary>What is used of an allowance.</summary>
[Shape(Of = "allowance_change")]
internal sealed record AllowanceItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public required string Restriction { get; init; }

    [Shape(Words = ["day", "week", "month", "season", "year"])]
    public required string Period { get; init; }

    [Description("The first date of the period; absent where nothing was used."), Shape(Of = ShapeAttribute.Date)]
    public string? OldFrom { get; init; }

    [Description("The first date of the period; absent where nothing is used."), Shape(Of = ShapeAttribute.Date)]
    public string? NewFrom { get; init; }

    [Description("The zone that used most, where each counts for itself."), Shape(Of = ShapeAttribute.Name)]
    public string? OldZone { get; init; }

    [Description("The zone that uses most, where each counts for itself."), Shape(Of = ShapeAttribute.Name)]
    public string? NewZone { get; init; }

    [JsonPropertyName("old_used_l"), Shape(Least = 0)]
    public decimal? OldUsed { get; init; }

    [JsonPropertyName("new_used_l"), Shape(Least = 0)]
    public decimal? NewUsed { get; init; }

    [JsonPropertyName("old_limit_l"), Shape(Least = 0)]
    public decimal? OldLimit { get; init; }

    [JsonPropertyName("new_limit_l"), Shape(Least = 0)]
    public required decimal NewLimit { get; init; }

    public required PlaceItem Place { get; init; }
}

/// <summary>A finding of one version.</summary>
[Shape(Of = "change")]
internal sealed record ChangedFindingItem
{
    [Shape(Of = ShapeAttribute.Slug)]
    public required string Rule { get; init; }

    [Shape(Words = ["error", "warning", "advice"])]
    public required string Severity { get; init; }

    public required string Heading { get; init; }

    [Description("What its heading was, where that was another.")]
    public string? Was { get; init; }

    public required PlaceItem Place { get; init; }
}

/// <summary>How it is written.</summary>
[JsonSerializable(typeof(ChangesDocument))]
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
internal sealed partial class ChangesContext : JsonSerializerContext;
