using NodaTime.Text;
using WaterScript.Diagnostics;
using WaterScript.Documents.Writers;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff;

/// <summary>What changes in the watering, for programs.</summary>
public static class ChangesJson
{
    /// <summary>Writes it.</summary>
    /// <param name="changes">The changes.</param>
    /// <param name="output">Stays open.</param>
    public static void Write(WateringChanges changes, Stream output)
    {
        ArgumentNullException.ThrowIfNull(changes);
        SiteJson.Write("waterscript_diff", changes.New, output, document =>
        {
            var json = document.Json;
            json.Entry("from", LocalDatePattern.Iso.Format(changes.Horizon.From));
            json.Entry("until", LocalDatePattern.Iso.Format(changes.Horizon.Until));
            ComparedInPart.Write(changes.InPart, document);
            document.Flag("changed", changes.IsChanged);
            document.Flag("description_changed", changes.IsDescriptionChanged);
            document.Maps("schedules", changes.Schedules, schedule => Write(schedule, document));
            document.Maps("zones", changes.Zones, zone => Write(zone, json));
            document.Maps("appeared", changes.Appeared, finding => Write(finding, document));
            document.Maps("gone", changes.Gone, finding => Write(finding, document));
        });
    }

    private static void Write(ScheduleChange change, SiteJson document)
    {
        document.Json.Entry("schedule", change.Name);
        document.Json.Entry("change", change.Kind switch
        {
            ScheduleChangeKind.Added => "added",
            ScheduleChangeKind.Removed => "removed",
            ScheduleChangeKind.Renamed => "renamed",
            _ => "changed",
        });
        if (change.Kind == ScheduleChangeKind.Renamed) document.Json.Entry("old_name", change.Old!.Name);
        if (change.First is { } first) document.Json.Entry("first_different", LocalDatePattern.Iso.Format(first));
        document.Maps("turns", change.Turns, turn =>
        {
            document.Json.Entry("what", turn.What);
            document.Json.Entry("old", turn.Old);
            document.Json.Entry("new", turn.New);
        });
    }

    private static void Write(ZoneChange change, JsonWriter json)
    {
        json.Entry("zone", change.Name);
        json.Entry("old_s_per_week", change.Old?.Seconds);
        json.Entry("new_s_per_week", change.New?.Seconds);
        json.Entry("old_l_per_week", Measure.Hundredths(change.Old?.Litres));
        json.Entry("new_l_per_week", Measure.Hundredths(change.New?.Litres));
    }

    private static void Write(Finding finding, SiteJson document)
    {
        document.Json.Entry("rule", finding.Rule.Slug);
        document.Json.Entry("severity", FindingSummary.WordOf(finding.Severity));
        document.Json.Entry("heading", finding.Heading);
        document.Place("place", finding.Primary.Location);
    }
}
