using System.ComponentModel;
using System.Text.Json.Serialization;
using WaterScript.Documents.Writers;

namespace WaterScript.Answers.Deployed;

/// <summary>Where lists that are deployed come from, for programs.</summary>
[Description("`waterscript deployed --report json`"), Shape(Of = "deployed")]
internal sealed record DeployedDocument
{
    [JsonPropertyName("waterscript_deployed"), Description(JsonDocuments.FormMeaning), Shape(Only = JsonDocuments.Form)]
    public int Form { get; init; } = JsonDocuments.Form;

    [Shape(Of = ShapeAttribute.Name)]
    public required string Site { get; init; }

    [JsonPropertyName("timezone_data"), Description("Version of the time-zone data.")]
    public required string TimeZoneData { get; init; }

    [Description("The moment that counts as now."), Shape(Of = ShapeAttribute.Moment)]
    public required string Now { get; init; }

    [Description("Whether a device with these lists does from now on what the file says, for a day and more. Then the status is 0.")]
    public required bool AsWritten { get; init; }

    [Description("Whether the file gives all lists as they are.")]
    public required bool Same { get; init; }

    [Description("When the list that is for now ends, with those that follow it without a hole."), Shape(Of = ShapeAttribute.Moment)]
    public string? Ends { get; init; }

    [Description("Whether that is within a day, or there is no list for now, though there was one or one is to come after it.")]
    public required bool OverSoon { get; init; }

    [Description("The revision of git that last changed the file or what it includes, where all of it is committed.")]
    public string? FileRevision { get; init; }

    [Description("What is in the device now comes first, then what is to come, then what is over.")]
    public required IEnumerable<DeployedListItem> Lists { get; init; }

    [Description("Times between lists for which there is none.")]
    public required IEnumerable<DeployedHoleItem> Holes { get; init; }

    [Description("Times for which there are two lists.")]
    public required IEnumerable<DeployedOverlapItem> Overlaps { get; init; }
}

/// <summary>A time without a list.</summary>
internal sealed record DeployedHoleItem
{
    [Shape(Of = ShapeAttribute.Moment)]
    public required string From { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public required string Until { get; init; }

    [Description("The only one for which there is none."), Shape(Of = ShapeAttribute.Name)]
    public string? Controller { get; init; }
}

/// <summary>A time with two lists.</summary>
internal sealed record DeployedOverlapItem
{
    [Shape(Of = ShapeAttribute.Moment)]
    public required string From { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public required string Until { get; init; }

    public required IEnumerable<string> Files { get; init; }
}

/// <summary>A list that is deployed.</summary>
internal sealed record DeployedListItem
{
    public required string File { get; init; }

    [Shape(Words = ["runs", "openings", "switchings"])]
    public required string List { get; init; }

    [Shape(Of = ShapeAttribute.Date)]
    public required string From { get; init; }

    [Description("The first date that is not in it."), Shape(Of = ShapeAttribute.Date)]
    public required string Until { get; init; }

    [Description("The only one that it is for."), Shape(Of = ShapeAttribute.Name)]
    public string? Controller { get; init; }

    [Shape(Least = 0)]
    public required int Rows { get; init; }

    [Description("The hash that closes the list.")]
    public required string Sha256 { get; init; }

    [JsonPropertyName("timezone_data"), Description("Version of the time-zone data that the list was compiled with.")]
    public required string TimeZoneData { get; init; }

    [Description("The revision of git that it was compiled from.")]
    public string? Revision { get; init; }

    [Description("The oldest of several revisions in a row that give this list, of which revision is the newest.")]
    public string? RevisionFirst { get; init; }

    [Description("What its author wrote of it, the first line.")]
    public string? Subject { get; init; }

    [Description("When it was committed, by the site's clock."), Shape(Of = ShapeAttribute.Date)]
    public string? Committed { get; init; }

    [Description("How the revision is known: the list has it; the sources of the list stand in it; it gives the list, compiled for these dates; or why none is "
        + "given."), Shape(Words = ["list", "search", "compiled", "same sources", "not found"])]
    public required string RevisionFrom { get; init; }

    [Description("The revision that the list names, where the repository does not have it.")]
    public string? RevisionUnknown { get; init; }

    [Description("Of no revision that gives the list, the nearest.")]
    public string? Nearest { get; init; }

    [Description("How many rows lie between its list and this one."), Shape(Least = 0)]
    public int? NearestApart { get; init; }

    [Description("How many revisions were looked at for that."), Shape(Least = 0)]
    public int? Searched { get; init; }

    [Description("The hash of the list that the file gives today.")]
    public required string FileSha256 { get; init; }

    [Description("Whether a device with it does from now on what the file says.")]
    public required bool SameFromNow { get; init; }

    [Description("Whether the file gives the same list today.")]
    public required bool Same { get; init; }

    [Description("When the first row is that only one of them has."), Shape(Of = ShapeAttribute.Moment)]
    public string? FirstDifferent { get; init; }

    [Description("Rows that only the list has.")]
    public required IEnumerable<DeployedRowItem> OnlyInList { get; init; }

    [Description("How many there are, where not all are listed."), Shape(Least = 0)]
    public int? OnlyInListInAll { get; init; }

    [Description("Rows that only the file gives today.")]
    public required IEnumerable<DeployedRowItem> OnlyInFile { get; init; }

    [Description("How many there are, where not all are listed."), Shape(Least = 0)]
    public int? OnlyInFileInAll { get; init; }
}

/// <summary>A row of a list.</summary>
internal sealed record DeployedRowItem
{
    [Shape(Of = ShapeAttribute.Moment)]
    public required string At { get; init; }

    [Description("As people read it.")]
    public required string What { get; init; }
}

/// <summary>How it is written.</summary>
[JsonSerializable(typeof(DeployedDocument))]
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
internal sealed partial class DeployedContext : JsonSerializerContext;
