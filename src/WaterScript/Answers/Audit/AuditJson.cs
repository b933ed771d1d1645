using NodaTime.Text;

namespace WaterScript.Answers.Audit;

/// <summary>What ran against what was meant, for programs.</summary>
public static class AuditJson
{
    /// <summary>Writes it.</summary>
    /// <param name="report">The report.</param>
    /// <param name="output">Stays open.</param>
    public static void Write(AuditReport report, Stream output)
    {
        ArgumentNullException.ThrowIfNull(report);
        SiteJson.Write("waterscript_audit", report.Site, output, document =>
        {
            var json = document.Json;
            document.Moment("from", report.From);
            document.Moment("to", report.To);
            json.Entry("rows", report.Rows);
            json.Entry("doubled", report.Doubled);
            json.Entry("meter_l", report.MeterLitres);
            ComparedInPart.Write(report.InPart, document);
            document.Maps("timetables", report.Lists, list =>
            {
                json.Entry("hash", list.Hash);
                json.Entry("is", AuditText.WordOf(list.Match));
                json.Entry("controller", list.Controller?.Name);
                json.Entry("from", LocalDatePattern.Iso.Format(report.ListDates.From));
                json.Entry("until", LocalDatePattern.Iso.Format(report.ListDates.Until));
            });
            document.Maps("entries", report.Entries, entry => Write(entry, document));
            if (report.EntryCount > report.Entries.Length) json.Entry("entries_in_all", report.EntryCount);
            document.Maps("water", report.Water, water =>
            {
                json.Entry("zone", water.Zone.Name);
                json.Entry("meant_s", water.MeantSeconds);
                json.Entry("actual_s", water.ActualSeconds);
                json.Entry("meant_l", Documents.Writers.Measure.Hundredths(water.MeantLitres));
                json.Entry("actual_l", Documents.Writers.Measure.Hundredths(water.ActualLitres));
                json.Entry("metered_l", water.MeteredLitres);
            });
            document.Maps("passed_over", report.Bad, bad =>
            {
                json.Entry("file", bad.Place.File);
                json.Entry("line", bad.Place.Line);
                json.Entry("why", bad.Why);
            });
            if (report.BadCount > report.Bad.Length) json.Entry("passed_over_in_all", report.BadCount);
        });
    }

    private static void Write(AuditEntry entry, SiteJson document)
    {
        document.Json.Entry("class", AuditText.WordOf(entry.Class));
        document.Json.Entry("zone", entry.Zone.Name);
        document.Json.Entry("schedule", entry.Schedule?.Name);
        document.Date("day", entry.Day);
        if (entry.Schedule is not null) document.Moment("meant_from", entry.From);
        if (entry.Schedule is not null) document.Json.Entry("meant_s", entry.Seconds);
        document.Moment("actual_from", entry.ActualFrom);
        document.Json.Entry("actual_s", entry.ActualSeconds);
        document.Json.Entry("why", entry.Why);
        document.Json.Entry("file", entry.Place?.File);
        document.Json.Entry("line", entry.Place?.Line);
    }
}
