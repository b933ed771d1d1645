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

    [Shape(Of = ShapeAttribute.Date)]
    public required string From { get; init; }

    [Description("The first date that is not compared."), Shape(Of = ShapeAttribute.Date)]
    public required string Until { get; init; }

    public OverLimitItem? OverLimit { get; init; }

    [Description("Whether the watering changes.")]
    public required bool Changed { get; init; }

    [Description("Whether anything else of the site does.")]
    public required bool DescriptionChanged { get; init; }

    public required IEnumerable<ScheduleItem> Schedules { get; init; }

    [Description("Watering time and water, mean of the dates.")]
    public required IEnumerable<ZoneItem> Zones { get; init; }

    [Description("Findings of the new version only.")]
    public required IEnumerable<ChangedFindingItem> Appeared { get; init; }

    [Description("Findings of the old one only.")]
    public required IEnumerable<ChangedFindingItem> Gone { get; init; }
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

    public required PlaceItem Place { get; init; }
}

/// <summary>How it is written.</summary>
[JsonSerializable(typeof(ChangesDocument))]
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
internal sealed partial class ChangesContext : JsonSerializerContext;
