using System.ComponentModel;
using System.Text.Json.Serialization;
using WaterScript.Documents.Reports;
using WaterScript.Documents.Writers;

namespace WaterScript.Answers.Next;

/// <summary>An outlook for programs.</summary>
[Description("`waterscript next --report json`"), Shape(Of = "next")]
internal sealed record OutlookDocument
{
    [JsonPropertyName("waterscript_next"), Description(JsonDocuments.FormMeaning), Shape(Only = JsonDocuments.Form)]
    public int Form { get; init; } = JsonDocuments.Form;

    [Shape(Of = ShapeAttribute.Name)]
    public required string Site { get; init; }

    [JsonPropertyName("timezone_data"), Description("Version of the time-zone data.")]
    public required string TimeZoneData { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public required string At { get; init; }

    [Description("Zones that water now.")]
    public required IEnumerable<OpenItem> Open { get; init; }

    [Description("What runs because of them.")]
    public required IEnumerable<OnItem> On { get; init; }

    public required IEnumerable<ShutItem> KeptShut { get; init; }

    [Description("What restrictions forbid that day.")]
    public required IEnumerable<BanItem> NotAllowed { get; init; }

    public required IEnumerable<ComingItem> Coming { get; init; }
}

/// <summary>A zone that waters now.</summary>
internal sealed record OpenItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public required string Zone { get; init; }

    [Shape(Of = ShapeAttribute.Name)]
    public required string Schedule { get; init; }

    [Description("From 1."), Shape(Least = 1)]
    public required int Pass { get; init; }

    [Description("Its path.")]
    public required string Step { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public required string From { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public required string To { get; init; }

    [Shape(Least = 0)]
    public required long SecondsLeft { get; init; }

    [Description("The step.")]
    public required PlaceItem Place { get; init; }
}

/// <summary>A device that is on now.</summary>
[Shape(OneOf = ["pump", "master", "injector"])]
internal sealed record OnItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public string? Pump { get; init; }

    [Shape(Of = ShapeAttribute.Name)]
    public string? Master { get; init; }

    [Shape(Of = ShapeAttribute.Name)]
    public string? Injector { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public required string From { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public required string To { get; init; }

    [Shape(Least = 0)]
    public required long SecondsLeft { get; init; }

    [Description("Where it is described.")]
    public required PlaceItem Place { get; init; }
}

/// <summary>Zones that are kept shut.</summary>
internal sealed record ShutItem
{
    [Shape(Words = ["hold", "closed", "cut", "scale"])]
    public required string By { get; init; }

    [Description("Left out where it is all of them."), Shape(Of = ShapeAttribute.Name)]
    public IEnumerable<string>? Zones { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public string? Until { get; init; }

    [Description("The reason given.")]
    public string? Because { get; init; }

    public required PlaceItem Place { get; init; }
}

/// <summary>What a restriction forbids.</summary>
internal sealed record BanItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public required string Restriction { get; init; }

    [Shape(Of = ShapeAttribute.Name)]
    public required IEnumerable<string> Zones { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public required string From { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public string? Until { get; init; }

    [Description("The line.")]
    public required PlaceItem Place { get; init; }
}

/// <summary>Passes that come.</summary>
internal sealed record ComingItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public required string Schedule { get; init; }

    [Description("The date that the passes belong to."), Shape(Of = ShapeAttribute.Date)]
    public required string Day { get; init; }

    [Description("What is left of one that is under way.")]
    public bool? RestOfPass { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public required string First { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public required string Last { get; init; }

    [Shape(Least = 1)]
    public required int Passes { get; init; }

    [JsonPropertyName("every_s"), Description("From one to the next."), Shape(Least = 1)]
    public long? EverySeconds { get; init; }

    public required IEnumerable<ComingZoneItem> Waterings { get; init; }
}

/// <summary>What a zone gets in such a pass.</summary>
internal sealed record ComingZoneItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public required string Zone { get; init; }

    [Shape(Least = 1)]
    public required long Seconds { get; init; }
}

/// <summary>How it is written.</summary>
[JsonSerializable(typeof(OutlookDocument))]
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
internal sealed partial class OutlookContext : JsonSerializerContext;
