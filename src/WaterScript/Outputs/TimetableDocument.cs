using System.Security.Cryptography;
using System.Text;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Outputs;

/// <summary>The timetable as a tree, which YAML and JSON write alike: what there is, what is to run, and a record that closes it.</summary>
internal sealed class TimetableDocument(Timetable timetable, OutputOptions options, DocumentWriter writer)
{
    /// <summary>Number of the form that <c>docs/timetable.schema.json</c> describes.</summary>
    private const int Form = 1;

    private readonly Site _site = timetable.Site;
    private readonly SiteDescription _description = new(timetable.Site);

    /// <summary>Writes it.</summary>
    public void Write()
    {
        using var lines = new CsvRuns();
        var totals = new ZoneTotals(_site);
        writer.StartMap();
        writer.Entry("waterscript", Form);
        writer.Map("site", WriteSite);
        writer.Map("valid", WriteValid, Layout.OneLine);
        writer.Entry("controller", options.Controller?.Name);
        if (!options.RunsOnly) _description.WriteParts(writer);
        WriteRuns(lines, totals);
        if (!options.RunsOnly) writer.List("totals", totals.ByZone().Where(IsWanted), WriteTotal);
        writer.Map("end", () => WriteEnd(lines), Layout.OneLine);
        writer.EndMap();
    }

    private void WriteSite()
    {
        _description.WriteSite(writer);
        writer.Entry("timezone_data", options.TimeZoneData);
        writer.Entry("sha256", Encoding.ASCII.GetBytes(DescriptionHash()));
    }

    private void WriteValid()
    {
        var clock = new ZoneClock(_site.TimeZone);
        var timestamps = new Timestamps(clock);
        var from = clock.StartOfDay(CivilDate.DayNumberOf(timetable.Horizon.From));
        var until = clock.StartOfDay(CivilDate.DayNumberOf(timetable.Horizon.Until));
        Span<byte> buffer = stackalloc byte[Timestamps.Longest];
        writer.Entry("from", timestamps.Instant(from, buffer));
        writer.Entry("until", timestamps.Instant(until, buffer));
        writer.Entry("from_epoch", from);
        writer.Entry("until_epoch", until);
    }

    private void WriteRuns(CsvRuns lines, ZoneTotals totals)
    {
        var fields = new RunFields(timetable);
        lines.Header();
        writer.Key("runs");
        writer.StartList();
        foreach (var run in timetable.RunsFor(options.Controller))
        {
            fields.Take(run);
            lines.Line(fields);
            totals.Add(run);
            WriteRun(fields);
        }

        writer.EndList();
    }

    private void WriteRun(RunFields fields)
    {
        writer.StartMap(Layout.OneLine);
        writer.Entry("from", fields.From);
        writer.Entry("to", fields.To);
        writer.Entry("zone", fields.Zone.Name);
        writer.Entry("schedule", fields.Schedule.Name);
        writer.Entry("day", fields.Day);
        writer.Entry("start", fields.Run.StartNumber);
        writer.Entry("pass", fields.Run.Pass);
        writer.Entry("pass_start", fields.PassStart);
        writer.Entry("step", fields.Step);
        writer.Entry("depth_mm", fields.Millimetres);
        writer.Entry("volume_l", fields.Litres);
        writer.EndMap();
    }

    private void WriteTotal(ZoneTotal total)
    {
        writer.StartMap(Layout.OneLine);
        writer.Entry("zone", total.Zone.Name);
        writer.Entry("runs", total.Runs);
        writer.Entry("seconds", total.Seconds);
        writer.Entry("volume_l", Measure.Hundredths(total.Litres));
        writer.Entry("depth_mm", Measure.Hundredths(total.Millimetres));
        writer.EndMap();
    }

    private void WriteEnd(CsvRuns lines)
    {
        writer.Entry("runs", lines.Count);
        writer.Entry("sha256", Encoding.ASCII.GetBytes(lines.Hash()));
    }

    private bool IsWanted(ZoneTotal total) => options.Controller is null || total.Zone.Controller.Index == options.Controller.Index;

    /// <summary>
    /// The SHA-256 of what was compiled: the description as JSON without spaces. Layout, comments and paths are no part of it, nor
    /// are the dates covered.
    /// </summary>
    private string DescriptionHash()
    {
        using var hash = SHA256.Create();
        using (var stream = new CryptoStream(Stream.Null, hash, CryptoStreamMode.Write))
        using (var json = new JsonWriter(stream, isIndented: false))
        {
            json.StartMap();
            json.Map("site", () => _description.WriteSite(json));
            _description.WriteParts(json);
            json.EndMap();
        }

        return Convert.ToHexStringLower(hash.Hash!);
    }
}
