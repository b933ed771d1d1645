using System.ComponentModel;
using System.Text.Json.Serialization;
using WaterScript.Documents.Writers;

namespace WaterScript.Answers.Audit;

/// <summary>What ran against what was meant, for programs.</summary>
[Description("`waterscript audit --report json`"), Shape(Of = "audit")]
internal sealed record AuditDocument
{
    [JsonPropertyName("waterscript_audit"), Description(JsonDocuments.FormMeaning), Shape(Only = JsonDocuments.Form)]
    public int Form { get; init; } = JsonDocuments.Form;

    [Shape(Of = ShapeAttribute.Name)]
    public required string Site { get; init; }

    [JsonPropertyName("timezone_data"), Description("Version of the time-zone data.")]
    public required string TimeZoneData { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public required string From { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public required string To { get; init; }

    [Description("Of the logs."), Shape(Least = 0)]
    public required long Rows { get; init; }

    [Description("Rows that stand in more than one log."), Shape(Least = 0)]
    public required int Doubled { get; init; }

    [JsonPropertyName("meter_l"), Description("By the meter."), Shape(Least = 0)]
    public decimal? MeterLitres { get; init; }

    public OverLimitItem? OverLimit { get; init; }

    [Description("How the clock of the log is off; all moments are corrected by that.")]
    public AuditClockItem? Clock { get; init; }

    [Description("That the device says it has.")]
    public required IEnumerable<AuditListItem> Timetables { get; init; }

    [Description("Given lists that were due while the device had another.")]
    public IEnumerable<AuditMissedItem>? MissedUpdates { get; init; }

    public required IEnumerable<AuditEntryItem> Entries { get; init; }

    [Description("How many entries there are, where not all are listed."), Shape(Least = 0)]
    public long? EntriesInAll { get; init; }

    public required IEnumerable<AuditWaterItem> Water { get; init; }

    [Description("Water that was metered while nothing was open.")]
    public IEnumerable<AuditLeakItem>? Leaks { get; init; }

    [Description("How many leaks there are, where not all are listed."), Shape(Least = 0)]
    public long? LeaksInAll { get; init; }

    [Description("What went through the meters of supplies, from each reading to the next.")]
    public IEnumerable<AuditMeterItem>? Meters { get; init; }

    [Description("Rows that could not be read.")]
    public required IEnumerable<AuditBadItem> PassedOver { get; init; }

    [Description("How many rows could not be read, where not all are listed."), Shape(Least = 0)]
    public long? PassedOverInAll { get; init; }
}

/// <summary>The readings of a meter.</summary>
[Shape(Of = "audited_meter")]
internal sealed record AuditMeterItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public required string Supply { get; init; }

    public required IEnumerable<AuditMeterPeriodItem> Periods { get; init; }

    [Description("Zones and tanks whose water is not in what was planned.")]
    public IEnumerable<string>? NotPlanned { get; init; }
}

/// <summary>What went through a meter from one reading to the next.</summary>
internal sealed record AuditMeterPeriodItem
{
    [Shape(Of = ShapeAttribute.Moment)]
    public required string From { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public required string Until { get; init; }

    [Description("The row with which it ends.")]
    public required string File { get; init; }

    [Shape(Least = 1)]
    public required int Line { get; init; }

    [JsonPropertyName("watering_l"), Description("By the plan."), Shape(Least = 0)]
    public required decimal Watering { get; init; }

    [JsonPropertyName("other_l"), Description("By the plan."), Shape(Least = 0)]
    public required decimal Other { get; init; }

    [JsonPropertyName("metered_l"), Shape(Least = 0)]
    public required decimal Metered { get; init; }

    [Description("Whether it differs from the plan by 10 % and 1 m3 or more.")]
    public required bool Unusual { get; init; }

    [Description("It is unusual, and the log comes to within 10 % of it.")]
    public bool? Explained { get; init; }

    [JsonPropertyName("logged_l"), Description("With the run times of the log in place of the planned ones.")]
    public decimal? Logged { get; init; }

    [JsonPropertyName("by_hand_l"), Description("What of that was watered by hand."), Shape(Least = 0)]
    public decimal? ByHand { get; init; }

    [Description("Passes of schedules that were planned."), Shape(Least = 0)]
    public int? Passes { get; init; }

    [Shape(Least = 0)]
    public int? PassesDone { get; init; }

    [Shape(Least = 0)]
    public int? PassesNotKnown { get; init; }
}

/// <summary>A list that was in the device.</summary>
internal sealed record AuditListItem
{
    [Description("As the device wrote it.")]
    public required string Hash { get; init; }

    [Shape(Words = ["of this file", "given", "another", "too short to identify", "too long to compare"])]
    public required string Is { get; init; }

    [Shape(Of = ShapeAttribute.Name)]
    public string? Controller { get; init; }

    [Description("The given list that it is.")]
    public string? File { get; init; }

    [Shape(Of = ShapeAttribute.Date)]
    public required string From { get; init; }

    [Shape(Of = ShapeAttribute.Date)]
    public required string Until { get; init; }
}

/// <summary>A list was due, and the device still had another.</summary>
internal sealed record AuditMissedItem
{
    [Description("The list that was due.")]
    public required string Due { get; init; }

    [Description("The list that the rows name.")]
    public required string Had { get; init; }

    [Description("The first of these rows."), Shape(Of = ShapeAttribute.Moment)]
    public required string First { get; init; }

    [Description("The last."), Shape(Of = ShapeAttribute.Moment)]
    public required string Last { get; init; }
}

/// <summary>A watering that was meant, or that was, or both.</summary>
internal sealed record AuditEntryItem
{
    [Shape(Words = ["done", "late", "early", "short", "long", "missed", "unplanned", "manual", "skipped", "interrupted", "close not seen", "fault",
        "not known", "no water", "too little water", "too much water"])]
    public required string Class { get; init; }

    [Shape(Of = ShapeAttribute.Name)]
    public required string Zone { get; init; }

    [Shape(Of = ShapeAttribute.Name)]
    public string? Schedule { get; init; }

    [Shape(Of = ShapeAttribute.Date)]
    public required string Day { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public string? MeantFrom { get; init; }

    [JsonPropertyName("meant_s"), Shape(Least = 0)]
    public long? MeantSeconds { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public string? ActualFrom { get; init; }

    [JsonPropertyName("actual_s"), Shape(Least = 0)]
    public long? ActualSeconds { get; init; }

    [JsonPropertyName("not_known_s"), Description("Of what was meant, where the log does not show whether it ran, because the device started anew."),
        Shape(Least = 1)]
    public long? NotKnownSeconds { get; init; }

    [JsonPropertyName("metered_l"), Description("By the meter."), Shape(Least = 0)]
    public decimal? MeteredLitres { get; init; }

    [JsonPropertyName("expected_l"), Description("What the flow of the zone gives in the time that was metered."), Shape(Least = 0)]
    public decimal? ExpectedLitres { get; init; }

    public string? Why { get; init; }

    public string? File { get; init; }

    [Shape(Least = 1)]
    public int? Line { get; init; }
}

/// <summary>How the clock of a log is off.</summary>
internal sealed record AuditClockItem
{
    [JsonPropertyName("season_s"), Description("Seconds that it is ahead because it does not change with the season.")]
    public required long SeasonSeconds { get; init; }

    [JsonPropertyName("per_week_s"), Description("Seconds that it gains in a week.")]
    public required long PerWeekSeconds { get; init; }

    [Description("What was measured, the first weeks.")]
    public required IEnumerable<AuditClockWeekItem> Weeks { get; init; }
}

/// <summary>How far the clock of a log was ahead in a week.</summary>
internal sealed record AuditClockWeekItem
{
    [Shape(Of = ShapeAttribute.Moment)]
    public required string From { get; init; }

    [JsonPropertyName("ahead_s"), Description("Below 0 where it was behind.")]
    public required long AheadSeconds { get; init; }
}

/// <summary>Water that was metered while nothing was open.</summary>
internal sealed record AuditLeakItem
{
    [Description("The last moment by which there was none of it."), Shape(Of = ShapeAttribute.Moment)]
    public required string Since { get; init; }

    [Shape(Of = ShapeAttribute.Moment)]
    public required string Until { get; init; }

    [JsonPropertyName("litres"), Shape(Least = 0)]
    public required decimal Litres { get; init; }

    [Description("Of the row that shows it first.")]
    public required string File { get; init; }

    [Shape(Least = 1)]
    public required int Line { get; init; }

    [Description("Of the row that shows it last.")]
    public required string LastFile { get; init; }

    [Shape(Least = 1)]
    public required int LastLine { get; init; }
}

/// <summary>Water of a zone.</summary>
internal sealed record AuditWaterItem
{
    [Shape(Of = ShapeAttribute.Name)]
    public required string Zone { get; init; }

    [JsonPropertyName("meant_s"), Shape(Least = 0)]
    public required long MeantSeconds { get; init; }

    [JsonPropertyName("actual_s"), Shape(Least = 0)]
    public required long ActualSeconds { get; init; }

    [JsonPropertyName("not_known_s"), Description("Of what was meant, where the log does not show what became of it."), Shape(Least = 0)]
    public long? NotKnownSeconds { get; init; }

    [JsonPropertyName("meant_l"), Shape(Least = 0)]
    public decimal? MeantLitres { get; init; }

    [JsonPropertyName("actual_l"), Shape(Least = 0)]
    public decimal? ActualLitres { get; init; }

    [JsonPropertyName("metered_l"), Shape(Least = 0)]
    public decimal? MeteredLitres { get; init; }
}

/// <summary>A row that was passed over.</summary>
internal sealed record AuditBadItem
{
    public required string File { get; init; }

    [Shape(Least = 1)]
    public required int Line { get; init; }

    public required string Why { get; init; }
}

/// <summary>How it is written.</summary>
[JsonSerializable(typeof(AuditDocument))]
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
internal sealed partial class AuditContext : JsonSerializerContext;
