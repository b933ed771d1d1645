using NodaTime.Text;
using WaterScript.Answers.Audit.Clocks;
using WaterScript.Answers.Audit.Meters;
using WaterScript.Answers.Audit.Water;
using WaterScript.Answers.Audit.Words;
using WaterScript.Documents.Writers;

namespace WaterScript.Answers.Audit;

/// <summary>What ran against what was meant, for programs.</summary>
internal static class AuditJson
{
    /// <summary>Writes it.</summary>
    /// <param name="report">The report.</param>
    /// <param name="output">Stays open.</param>
    public static void Write(AuditReport report, Stream output) => Write(report, meters: null, output);

    /// <summary>Writes it, with what went through meters.</summary>
    /// <param name="report">The report; null without a log.</param>
    /// <param name="meters">What went through meters; null without readings, unless there is no log either.</param>
    /// <param name="output">Stays open.</param>
    public static void Write(AuditReport? report, MeterAudit? meters, Stream output)
    {
        var moments = new SiteMoments(report?.Site ?? meters!.Site);
        var document = report is null ? WithoutLog(meters!, moments) : Of(report, moments);
        if (meters is not null)
        {
            document = document with
            {
                Meters = MetersJson.Of(meters, moments),
                PassedOver = document.PassedOver.Concat(meters.Bad.Select(Of)),
            };
        }

        JsonDocuments.Write(output, document, new AuditContext(JsonDocuments.Options()).AuditDocument);
    }

    private static AuditDocument WithoutLog(MeterAudit meters, SiteMoments moments) => new()
    {
        Site = meters.Site.Name,
        TimeZoneData = meters.Site.TimeZoneData,
        From = moments.At(meters.From),
        To = moments.At(meters.Until),
        Rows = 0,
        Doubled = 0,
        Timetables = [],
        Entries = [],
        Water = [],
        PassedOver = [],
    };

    private static AuditBadItem Of(BadRow bad) => new() { File = bad.Place.File, Line = bad.Place.Line, Why = bad.Why };

    private static AuditDocument Of(AuditReport report, SiteMoments moments) => new()
    {
        Site = report.Site.Name,
        TimeZoneData = report.Site.TimeZoneData,
        From = moments.At(report.From),
        To = moments.At(report.To),
        Rows = report.Rows,
        Doubled = report.Doubled,
        MeterLitres = report.MeterLitres,
        OverLimit = OverLimitItem.Of(report.InPart, moments),
        Clock = report.Clock is { } clock ? Of(clock, moments) : null,
        Timetables = report.Lists.Select(list => new AuditListItem
        {
            Hash = list.Hash,
            Is = AuditText.WordOf(list.Match),
            Controller = list.Controller?.Name,
            File = list.Given?.File,
            From = LocalDatePattern.Iso.Format((list.Given?.Dates ?? report.ListDates).From),
            Until = LocalDatePattern.Iso.Format((list.Given?.Dates ?? report.ListDates).Until),
        }),
        MissedUpdates = report.Missed.IsEmpty ? null : report.Missed.Select(missed => new AuditMissedItem
        {
            Due = missed.Due.File,
            Had = missed.Had.File,
            First = moments.At(missed.First),
            Last = moments.At(missed.Last),
        }),
        Entries = report.Entries.Select(entry => Of(entry, moments)),
        EntriesInAll = report.EntryCount > report.Entries.Length ? report.EntryCount : null,
        Water = report.Water.Select(Of),
        Leaks = report.Leaks.Count == 0 ? null : report.Leaks.First.Select(leak => Of(leak, moments)),
        LeaksInAll = report.Leaks.Count > report.Leaks.First.Length ? report.Leaks.Count : null,
        PassedOver = report.Bad.Select(Of),
        PassedOverInAll = report.BadCount > report.Bad.Length ? report.BadCount : null,
    };

    private static AuditEntryItem Of(AuditEntry entry, SiteMoments moments) => new()
    {
        Class = AuditText.WordOf(entry.Class),
        Zone = entry.Zone.Name,
        Schedule = entry.Schedule?.Name,
        Day = moments.Date(entry.Day),
        MeantFrom = !entry.IsMeant ? null : moments.At(entry.From),
        MeantSeconds = !entry.IsMeant ? null : entry.Seconds,
        ActualFrom = moments.At(entry.ActualFrom),
        ActualSeconds = entry.ActualSeconds,
        NotKnownSeconds = entry.NotKnownSeconds > 0 ? entry.NotKnownSeconds : null,
        MeteredLitres = Measure.Hundredths(entry.Volume?.Litres),
        ExpectedLitres = Measure.Hundredths(entry.Volume?.Expected),
        Why = entry.Why,
        File = entry.Place?.File,
        Line = entry.Place?.Line,
    };

    private static AuditClockItem Of(LogClock clock, SiteMoments moments) => new()
    {
        SeasonSeconds = clock.Season,
        PerWeekSeconds = (long)Math.Round(clock.PerWeek),
        Weeks = clock.Weeks.Take(AuditReport.MostListed)
            .Select(week => new AuditClockWeekItem { From = moments.At((long)week.From), AheadSeconds = (long)Math.Round(week.Ahead) }),
    };

    private static AuditLeakItem Of(WaterLeak leak, SiteMoments moments) => new()
    {
        Since = moments.At(leak.Since),
        Until = moments.At(leak.Until),
        Litres = Math.Round(leak.Litres, 2),
        File = leak.First.File,
        Line = leak.First.Line,
        LastFile = leak.Last.File,
        LastLine = leak.Last.Line,
    };

    private static AuditWaterItem Of(AuditedWater water) => new()
    {
        Zone = water.Zone.Name,
        MeantSeconds = water.MeantSeconds,
        ActualSeconds = water.ActualSeconds,
        NotKnownSeconds = water.NotKnownSeconds > 0 ? water.NotKnownSeconds : null,
        MeantLitres = Measure.Hundredths(water.MeantLitres),
        ActualLitres = Measure.Hundredths(water.ActualLitres),
        MeteredLitres = Measure.Hundredths(water.MeteredLitres),
    };
}
