using NodaTime.Text;
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
    public static void Write(WateringChanges changes, Stream output)
    {
        ArgumentNullException.ThrowIfNull(changes);
        var document = new ChangesDocument
        {
            Site = changes.New.Name,
            From = LocalDatePattern.Iso.Format(changes.Horizon.From),
            Until = LocalDatePattern.Iso.Format(changes.Horizon.Until),
            OverLimit = OverLimitItem.Of(changes.InPart, new SiteMoments(changes.New)),
            Changed = changes.IsChanged,
            DescriptionChanged = changes.IsDescriptionChanged,
            Schedules = changes.Schedules.Select(Of),
            Zones = changes.Zones.Select(Of),
            Appeared = changes.Appeared.Select(Of),
            Gone = changes.Gone.Select(Of),
        };
        JsonDocuments.Write(output, document, new ChangesContext(JsonDocuments.Options()).ChangesDocument);
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
        Turns = change.Turns.Select(turn => new TurnItem { What = turn.What, Old = turn.Old, New = turn.New }),
    };

    private static ZoneItem Of(ZoneChange change) => new()
    {
        Zone = change.Name,
        OldSeconds = change.Old?.Seconds,
        NewSeconds = change.New?.Seconds,
        OldLitres = Measure.Hundredths(change.Old?.Litres),
        NewLitres = Measure.Hundredths(change.New?.Litres),
    };

    private static ChangedFindingItem Of(Finding finding) => new()
    {
        Rule = finding.Rule.Slug,
        Severity = FindingSummary.WordOf(finding.Severity),
        Heading = finding.Heading,
        Place = new PlaceItem(finding.Primary.Location),
    };
}
