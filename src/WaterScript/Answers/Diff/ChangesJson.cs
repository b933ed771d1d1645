using NodaTime.Text;
using WaterScript.Answers.Diff.Costs;
using WaterScript.Answers.Diff.Written;
using WaterScript.Diagnostics;
using WaterScript.Documents.Reports;
using WaterScript.Documents.Writers;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff;

/// <summary>What changes in the watering, for programs.</summary>
internal static class ChangesJson
{
    /// <summary>Writes it.</summary>
    /// <param name="changes">The changes.</param>
    /// <param name="output">Stays open.</param>
    public static void Write(WateringChanges changes, Stream output) =>
        JsonDocuments.Write(output, DocumentOf(changes), new ChangesContext(JsonDocuments.Options()).ChangesDocument);

    /// <summary>What there is to write.</summary>
    public static ChangesDocument DocumentOf(WateringChanges changes)
    {
        ArgumentNullException.ThrowIfNull(changes);
        return new ChangesDocument
        {
            Site = changes.New.Name,
            TimeZoneData = changes.New.TimeZoneData,
            From = LocalDatePattern.Iso.Format(changes.Horizon.From),
            Until = LocalDatePattern.Iso.Format(changes.Horizon.Until),
            OverLimit = OverLimitItem.Of(changes.InPart, new SiteMoments(changes.New)),
            Only = changes.Scope switch
            {
                DiffScope.Water => "water",
                DiffScope.Devices => "devices",
                DiffScope.Findings => "findings",
                _ => null,
            },
            Changed = changes.IsChanged,
            DevicesChanged = changes.Devices.IsChanged,
            FindingsChanged = changes.Findings.Any,
            CostsChanged = changes.Costs.IsChanged,
            DescriptionChanged = changes.IsDescriptionChanged,
            FirstDifferent = changes.First is { } first ? LocalDatePattern.Iso.Format(first) : null,
            OldTimeZoneData = changes.TimeZoneData?.Old,
            NewTimeZoneData = changes.TimeZoneData?.New,
            Causes = changes.Causes.Select(Of),
            Schedules = changes.Schedules.Select(Of),
            Zones = changes.Zones.Select(Of),
            Costs = CostsJson.Of(changes.Costs.Meters),
            CostsOverLimit = changes.Costs.IsOverLimit ? true : null,
            Allowances = changes.Costs.Allowances.Select(CostsJson.Of),
            Openings = changes.Devices.Outputs.Select(output => new OpeningsItem { Output = output.Key, Differ = output.Value }),
            WiringChanged = changes.Devices.IsWiringChanged,
            Appeared = changes.Findings.Appeared.Select(finding => Of(finding)),
            Gone = changes.Findings.Gone.Select(finding => Of(finding)),
            Accepted = changes.Findings.Accepted.Select(accepted => Of(accepted.Finding)),
            Turned = changes.Findings.Turned.Select(turn => Of(turn.New, turn.Old.Heading)),
        };
    }

    private static ScheduleItem Of(ScheduleChange change) => new()
    {
        Schedule = change.Name,
        Change = change.Kind switch
        {
            ScheduleChangeKind.Added => "added",
            ScheduleChangeKind.Removed => "removed",
            ScheduleChangeKind.Renamed => "renamed",
            _ => "changed",
        },
        OldName = change.Kind == ScheduleChangeKind.Renamed ? change.Old!.Name : null,
        FirstDifferent = change.First is { } first ? LocalDatePattern.Iso.Format(first) : null,
        Turns = change.Turns.Select(Of),
    };

    private static TurnItem Of(Turn turn) => new()
    {
        What = turn.What,
        Old = turn.Old,
        New = turn.New,
        Effect = turn.Effect.Length > 0 ? turn.Effect : null,
        Place = turn.Place is { } place ? new PlaceItem(place) : null,
    };

    private static CauseItem Of(WrittenChange cause) => new()
    {
        Change = cause.Kind switch
        {
            WrittenChangeKind.Added => "added",
            WrittenChangeKind.Removed => "removed",
            WrittenChangeKind.Renamed => "renamed",
            _ => "changed",
        },
        Thing = cause.Thing,
        Name = cause.Name.Length > 0 ? cause.Name : null,
        What = cause.What.Length > 0 ? cause.What : null,
        Old = cause.Old.Length > 0 ? cause.Old : null,
        New = cause.New.Length > 0 ? cause.New : null,
        Place = new PlaceItem(cause.Place),
    };

    private static ZoneItem Of(ZoneChange change) => new()
    {
        Zone = change.Name,
        OldSeconds = change.Old?.Seconds,
        NewSeconds = change.New?.Seconds,
        OldLitres = Measure.Hundredths(change.Old?.Litres),
        NewLitres = Measure.Hundredths(change.New?.Litres),
        OldMillimetres = Measure.Hundredths(change.Old?.Millimetres),
        NewMillimetres = Measure.Hundredths(change.New?.Millimetres),
    };

    private static ChangedFindingItem Of(Finding finding, string? was = null) => new()
    {
        Rule = finding.Rule.Slug,
        Severity = FindingSummary.WordOf(finding.Severity),
        Heading = finding.Heading,
        Was = was == finding.Heading ? null : was,
        Place = new PlaceItem(finding.Primary.Location),
    };
}
