using System.Globalization;
using System.Text;
using NodaTime;
using NodaTime.Text;
using WaterScript.Answers.Audit;
using WaterScript.Answers.Audit.Meters;
using WaterScript.Answers.Audit.Words;
using WaterScript.Diagnostics;
using WaterScript.Fuzz.Inputs;
using WaterScript.Model;
using WaterScript.Text.Lines;

namespace WaterScript.Fuzz.Stages;

/// <summary>Logs made from the timetable: as they are, all is done as meant; with odd cells and bytes, each row is taken or reported.</summary>
internal sealed class AuditStage : IStage
{
    private const int MostOpenings = 300;

    private static readonly string[] OddCells =
    [
        "", "\"", "\"\"", "\"a,b\"", "open", "close", "boot", "skip", "fault", "hand", "alive", "-1", "0", "999999999999999999999", "1e30",
            "79228162514264337593543950335", "NaN", "2026-03-29 02:30:00", "2026-10-25 02:30", "31.02.2026 25:00",
        "0001-01-01T00:00:00Z", "-99999999999", "99999999999", "9999-12-31T23:59:59Z", "253402300799", "\u001b[31m", "\u202e", "\ufeff", "::error::x", "²",
            "1,5", "1.5.5", "\0", "\r", ";", "\t", "=1+1",
    ];

    public string Name => "audit";

    public bool Run(SiteInHand site, SiteInHand original)
    {
        if (site.Sound is not { } sound) return false;
        var rows = Rows(site, sound).ToList();
        if (rows.Count == 0) return false;
        var whole = Audit(site, Log(rows));
        Must.Hold(whole is not null, "a log that was made from the timetable can be used");
        var wrong = whole!.NotAsMeant.First.FirstOrDefault(entry =>
            entry.Schedule is not null && entry.Class is AuditClass.Missed or AuditClass.Late or AuditClass.Early or AuditClass.Short or AuditClass.Long);
        Must.Hold(wrong is null, "a log that was made from the timetable is as meant", $"{wrong?.Zone.Name} {wrong?.Class} {wrong?.From} {wrong?.ActualFrom}");
        var dice = new Dice((ulong)(rows.Count * FuzzInput.Salts) + (ulong)site.Salt);
        for (var round = 0; round < 3; round++) Audit(site, Spoilt(Log(rows), dice));
        for (var round = 0; round < 3 && !sound.Supplies.IsEmpty; round++) ReadMeters(site, sound, whole, round == 0 ? null : dice);
        return true;
    }

    /// <summary>Readings of the meters of all supplies: as they are, all of them can be used; spoilt, each is taken or reported.</summary>
    private static void ReadMeters(SiteInHand site, Site sound, AuditReport log, Dice? dice)
    {
        var days = Period.DaysBetween(site.Horizon.From, site.Horizon.Until);
        var text = $"date,note,{string.Join(',', sound.Supplies.Select(supply => supply.Name))}\n" + string.Concat(new[] { 0, days / 3, days }.Distinct()
            .Select((day, row) => $"{LocalDatePattern.Iso.Format(site.Horizon.From.PlusDays(day))},{string.Concat(sound.Supplies.Select(_ => $",{row}"))}\n"));
        var now = site.Horizon.Until.PlusDays(1).AtStartOfDayInZone(sound.TimeZone).ToInstant();
        var (readings, why) = ReadingsFile.Read("readings.csv", new StringReader(dice is null ? text : Spoilt(text, dice)), sound, now);
        Must.Hold(dice is not null || readings?.Bad.IsEmpty == true, "readings that go up can be used", why);
        if (readings is null || readings.PeriodCount == 0) return;
        try
        {
            var audit = MeterAudit.Of(sound, readings, log);
            foreach (var period in audit.Meters.SelectMany(meter => meter.Periods))
                Must.Hold(period.From.At < period.Until.At && period.Metered.Sign >= 0 && period.Planned.Sign >= 0, "a period goes on, and a meter too");
            CheckStage.IsJson(stream => AuditJson.Write(null, audit, stream), "an audit of meters in JSON is JSON");
            Must.Hold(IsWritten(stream => PlainLines.WriteTo(stream, lines => MeterText.Write(audit, lines)))
                && IsWritten(stream => MarkdownLines.WriteTo(stream, lines => MeterText.Write(audit, lines))), "an audit of meters is put in words");
        }
        catch (WorkUsedUpException)
        {
            // Too much to add up is said so by the command.
        }
    }

    private static AuditReport? Audit(SiteInHand site, string text)
    {
        var log = new LogReader(site.Sound!, LogColumns.Default);
        if (log.Read("log.csv", text) is not null) return null;
        if (Auditor.Audit(site.Sound!, log, new AuditOptions(), site.Timetable) is not { } report) return null;
        CheckStage.IsJson(stream => AuditJson.Write(report, stream), "an audit in JSON is JSON");
        Must.Hold(IsWritten(stream => PlainLines.WriteTo(stream, lines => AuditText.Write(report, lines)))
            && IsWritten(stream => MarkdownLines.WriteTo(stream, lines => AuditText.Write(report, lines))), "an audit is put in words");
        return report;
    }

    private static bool IsWritten(Action<Stream> write) => CheckStage.Written(write).Length > 0;

    /// <summary>
    /// Up to the last midnight, since passes that begin after it are not in the timetable and may be what keeps an output open; of many openings
    /// up to where the first of those begins that are left out: what comes later is not known.
    /// </summary>
    private static IEnumerable<string> Rows(SiteInHand site, Site sound)
    {
        var openings = site.Timetable.Openings().Where(opening => opening.Zone >= 0).Take(MostOpenings + 1).ToList();
        var end = site.Horizon.Until.AtStartOfDayInZone(sound.TimeZone).ToInstant().ToUnixTimeSeconds();
        if (openings.Count > MostOpenings) end = Math.Min(end, openings[^1].From);
        return openings
            .SelectMany(opening => new[] { (At: opening.From, Open: 1, opening.Zone), (At: opening.To, Open: 0, opening.Zone) })
            .Where(row => row.At < end)
            .Order()
            .Select((row, index) => string.Create(
                CultureInfo.InvariantCulture, $"{row.At},{sound.Zones[row.Zone].Name},{(row.Open == 1 ? "open" : "close")},,{index + 1}"));
    }

    private static string Log(IEnumerable<string> rows) => "time,zone,do,why,number\n" + string.Join('\n', rows) + "\n";

    private static string Spoilt(string log, Dice dice)
    {
        for (var changes = 1 + dice.Below(12); changes > 0 && log.Length > 0; changes--)
        {
            var at = dice.Below(log.Length);
            log = dice.Below(5) switch
            {
                0 => log.Remove(at, Math.Min(1 + dice.Below(30), log.Length - at)),
                1 => log.Insert(at, dice.Of(OddCells)),
                2 => Cell(log, at, dice.Of(OddCells)),
                3 => log.Insert(at, log.Substring(at, Math.Min(40, log.Length - at))),
                _ => dice.OneIn(8) ? log.ReplaceLineEndings("\r\n")
                    : log.Replace(dice.OneIn(2) ? "\n" : ",", dice.OneIn(2) ? "\r\n" : ";", StringComparison.Ordinal),
            };
        }

        if (!dice.OneIn(6)) return log;
        var bytes = Encoding.UTF8.GetBytes(log);
        for (var changes = 8; changes > 0 && bytes.Length > 0; changes--) bytes[dice.Below(bytes.Length)] = (byte)dice.Below(256);
        return Encoding.UTF8.GetString(bytes);
    }

    private static string Cell(string log, int at, string cell)
    {
        var start = log.LastIndexOfAny([',', ';', '\n'], at) + 1;
        var end = log.IndexOfAny([',', ';', '\n'], at);
        return end < start ? log : log[..start] + cell + log[end..];
    }
}
