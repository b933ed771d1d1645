using System.ComponentModel;
using System.Text.Json.Serialization;
using WaterScript.Documents.Writers;

namespace WaterScript.Documents.Reports;

/// <summary>What was found in some sites, for programs.</summary>
[Description("`waterscript check --report json`"), Shape(Of = "check")]
internal sealed record ReportDocument
{
    [JsonPropertyName("waterscript_report"), Description(JsonDocuments.FormMeaning), Shape(Only = JsonDocuments.Form)]
    public int Form { get; init; } = JsonDocuments.Form;

    public required IEnumerable<SiteItem> Sites { get; init; }
}

/// <summary>What was found in a site.</summary>
internal sealed record SiteItem
{
    [Description("The site's, or the file's where the site could not be read.")]
    public required string Name { get; init; }

    [Description("The root file.")]
    public required string File { get; init; }

    [Description("All that were read.")]
    public required IEnumerable<string> Files { get; init; }

    [JsonPropertyName("timezone_data"), Description("Version of the time-zone data. Left out where the site could not be read.")]
    public string? TimeZoneData { get; init; }

    [Description("Left out where the file could not be read.")]
    public CheckedItem? Checked { get; init; }

    public required TallyItem Tally { get; init; }

    public required IEnumerable<FindingItem> Findings { get; init; }

    [Description("With `--show-accepted`.")]
    public IEnumerable<AcceptedItem>? Accepted { get; init; }

    [Description("Waterings that a hold, a closed season or a `cut off at` line takes on the dates that were looked at, one by one. " +
        "Left out where the site is too large to be looked through again.")]
    public IEnumerable<TakenItem>? Taken { get; init; }

    [Description("How many more of them there are."), Shape(Least = 1)]
    public long? TakenLeftOut { get; init; }

    [Description("When the sun rises and sets, on the dates of the first year that was looked at. Left out where the place is not known.")]
    public IEnumerable<SunItem>? Sun { get; init; }
}

/// <summary>What was looked at.</summary>
internal sealed record CheckedItem
{
    [Shape(Of = ShapeAttribute.Date)]
    public required string From { get; init; }

    [Description("The first date that was not checked."), Shape(Of = ShapeAttribute.Date)]
    public required string Until { get; init; }

    [Description("What was looked at.")]
    public required IEnumerable<string> Areas { get; init; }

    [Description("What was not, the most dangerous first.")]
    public required IEnumerable<GapItem> NotChecked { get; init; }

    [Description("Whether schedules or passes ever meet.")]
    public DecidedItem? Decided { get; init; }
}

/// <summary>What is decided beyond those dates.</summary>
internal sealed record DecidedItem
{
    [Description("The first date that was not compared."), Shape(Of = ShapeAttribute.Date)]
    public required string Until { get; init; }

    [Description("Schedules whose times move, which are decided for the dates above only."), Shape(Of = ShapeAttribute.Name)]
    public required IEnumerable<string> ButFor { get; init; }

    [Description("Whether all pairs of the others could be compared.")]
    public required bool AllPairs { get; init; }
}

/// <summary>How many there are of each.</summary>
internal sealed record TallyItem
{
    [Shape(Least = 0)]
    public required int Errors { get; init; }

    [Shape(Least = 0)]
    public required int Warnings { get; init; }

    [Shape(Least = 0)]
    public required int Advice { get; init; }

    [Shape(Least = 0)]
    public required int Accepted { get; init; }

    [Shape(Least = 0)]
    public required int InBaseline { get; init; }

    [Description("Findings of files that it shares, which stand with a site before it."), Shape(Least = 1)]
    public int? Shared { get; init; }
}

/// <summary>How it is written.</summary>
[JsonSerializable(typeof(ReportDocument))]
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
internal sealed partial class ReportContext : JsonSerializerContext;
