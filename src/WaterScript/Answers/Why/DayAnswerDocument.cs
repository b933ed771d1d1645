using System.ComponentModel;
using System.Text.Json.Serialization;
using WaterScript.Documents.Reports;
using WaterScript.Documents.Writers;

namespace WaterScript.Answers.Why;

/// <summary>Whether a zone is watered on a date and why, for programs.</summary>
[Description("`waterscript why --report json`"), Shape(Of = "why")]
internal sealed record DayAnswerDocument
{
    [JsonPropertyName("waterscript_why"), Description(JsonDocuments.FormMeaning), Shape(Only = JsonDocuments.Form)]
    public int Form { get; init; } = JsonDocuments.Form;

    [Shape(Of = ShapeAttribute.Name)]
    public required string Site { get; init; }

    [JsonPropertyName("timezone_data"), Description("Version of the time-zone data.")]
    public required string TimeZoneData { get; init; }

    [Shape(Of = ShapeAttribute.Name)]
    public required string Zone { get; init; }

    [Shape(Of = ShapeAttribute.Date)]
    public required string Date { get; init; }

    public required IEnumerable<DayWateringItem> Waterings { get; init; }

    [Description("Those that water the zone on any date.")]
    public required IEnumerable<DayScheduleItem> Schedules { get; init; }
}

/// <summary>A watering of the date.</summary>
internal sealed record DayWateringItem
{
    [Shape(Of = ShapeAttribute.Moment)]
    public required string From { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public required string To { get; init; }

    [Shape(Of = ShapeAttribute.Name)]
    public required string Schedule { get; init; }

    [Description("The date that its pass belongs to."), Shape(Of = ShapeAttribute.Date)]
    public required string Day { get; init; }

    [Description("Its path.")]
    public required string Step { get; init; }

    [Description("The step.")]
    public required PlaceItem Place { get; init; }
}

/// <summary>What a schedule does on the date.</summary>
internal sealed record DayScheduleItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public required string Name { get; init; }

    public required bool Due { get; init; }

    public required IEnumerable<DayLineItem> Lines { get; init; }
}

/// <summary>What a line does on the date.</summary>
internal sealed record DayLineItem
{
    [Description("The line.")]
    public required string Written { get; init; }

    [Description("What it does on that date.")]
    public required string Says { get; init; }

    [Description("It speaks against a watering.")]
    public bool? Against { get; init; }

    public required PlaceItem Place { get; init; }
}

/// <summary>How it is written.</summary>
[JsonSerializable(typeof(DayAnswerDocument))]
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
internal sealed partial class DayAnswerContext : JsonSerializerContext;
