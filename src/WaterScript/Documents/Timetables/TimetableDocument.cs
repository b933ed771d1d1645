using System.Text;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Documents.Descriptions;
using WaterScript.Documents.Writers;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Water;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Documents.Timetables;

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
        using var runs = new CsvRuns();
        using var openings = new CsvOpenings();
        using var switchings = new CsvSwitchings();
        var skipped = new SkippedWater();
        var totals = new ZoneTotals(_site);
        var outputs = new SwitchedOutputs(_site, options.Controller);
        writer.StartMap();
        writer.Entry("waterscript", Form);
        writer.Map("site", WriteSite);
        writer.Map("valid", WriteValid, Layout.OneLine);
        writer.Entry("controller", options.Controller?.Name);
        if (IsWhole) _description.WriteParts(writer);
        if (IsWhole) new StepPlaces(_site, options.Provenance, writer).Write();
        if (Has(TimetableList.Runs)) WriteRuns(runs, totals, skipped);
        if (Has(TimetableList.Openings)) WriteOpenings(openings, outputs);
        if (Has(TimetableList.Switchings)) WriteForDevice(switchings, outputs);
        if (IsWhole) WriteSums(skipped, totals);
        writer.Map("end", () => WriteEnd(runs, openings, switchings), Layout.OneLine);
        writer.EndMap();
    }

    private bool IsWhole => options.Only is null;

    private bool Has(TimetableList list) => IsWhole || options.Only == list;

    private void WriteSite()
    {
        _description.WriteSite(writer);
        writer.Entry("timezone_data", _site.TimeZoneData);
        // Quoted, whatever digits they begin with.
        if (options.Provenance.SourcesHash is { } sources) writer.Entry("sources_sha256", Encoding.ASCII.GetBytes(sources));
        if (options.Provenance.Revision is { } revision) writer.Entry("revision", Encoding.ASCII.GetBytes(revision));
        writer.Entry("sha256", Encoding.ASCII.GetBytes(SiteHash.Of(_site)));
    }

    private void WriteValid()
    {
        var timestamps = new Timestamps(new ZoneClock(_site.TimeZone));
        var (from, until) = Validity.Of(timetable);
        Span<byte> buffer = stackalloc byte[Timestamps.Longest];
        writer.Entry("from", timestamps.Instant(from, buffer));
        writer.Entry("until", timestamps.Instant(until, buffer));
        writer.Entry("from_epoch", from);
        writer.Entry("until_epoch", until);
    }

    private void WriteRuns(CsvRuns lines, ZoneTotals totals, SkippedWater skipped)
    {
        var fields = new RunFields(timetable);
        writer.Key("runs");
        writer.StartList();
        foreach (var run in timetable.RunsFor(options.Controller, skipped))
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
        writer.Entry("run", fields.Run.Number);
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

    private void WriteOpenings(CsvOpenings lines, SwitchedOutputs outputs)
    {
        var fields = new OpeningFields(_site);
        writer.Key("openings");
        writer.StartList();
        var openings = timetable.OpeningsFor(options.Controller);
        if (Has(TimetableList.Switchings))
        {
            outputs.Add(timetable, openings.Select(Written), isForDevice: false);
        }
        else
        {
            foreach (var opening in openings) Written(opening);
        }

        writer.EndList();

        Opening Written(Opening opening)
        {
            fields.Take(opening);
            lines.Line(fields);
            WriteOpening(fields);
            return opening;
        }
    }

    private void WriteOpening(OpeningFields fields)
    {
        writer.StartMap(Layout.OneLine);
        writer.Entry("opening", fields.Opening.Number);
        writer.Entry("from", fields.From);
        writer.Entry("to", fields.To);
        writer.Entry("controller", fields.Controller.Name);
        writer.Entry("output", fields.Output);
        writer.Entry(fields.Kind, fields.Name);
        writer.Key("runs");
        writer.StartList(Layout.OneLine);
        var runs = fields.Opening.Runs;
        for (var i = 0; i < runs.Count; i++) writer.Number(runs[i]);
        writer.EndList();
        writer.EndMap();
    }

    /// <summary>What a device needs: how it behaves outside the list, its outputs, and the list.</summary>
    private void WriteForDevice(CsvSwitchings lines, SwitchedOutputs outputs)
    {
        if (!IsWhole) outputs.Add(timetable, timetable.OpeningsFor(options.Controller), isForDevice: true);
        writer.Map("policy", WritePolicy, Layout.OneLine);
        writer.List("outputs", outputs.Entries, WriteOutput);
        var fields = new SwitchingFields(_site, outputs, isForDevice: !IsWhole);
        writer.Key("switchings");
        writer.StartList();
        foreach (var switching in timetable.SwitchingsFor(options.Controller))
        {
            fields.Take(switching);
            lines.Line(fields);
            WriteSwitching(fields);
        }

        fields.End();
        writer.EndList();
    }

    /// <summary>
    /// Closed when the power comes back, and outside the list; of an opening that is still due what is left is carried out, and
    /// never shifted; without a clock nothing is.
    /// </summary>
    private void WritePolicy()
    {
        writer.Entry("power_up", "close-all");
        writer.Entry("before", "rest");
        writer.Entry("after", "rest");
        writer.Entry("late", "join");
        writer.Entry("clock_unset", "rest");
    }

    private void WriteOutput(UsedOutput output)
    {
        writer.StartMap(Layout.OneLine);
        writer.Entry("controller", output.Wired.Controller.Name);
        writer.Entry("output", output.Wired.Number);
        writer.Entry("for", output.Wired.Name);
        writer.Entry("kind", output.Wired.IsLatching ? "latching" : "non-latching");
        writer.Entry("pulse_ms", output.PulseMilliseconds);
        writer.Entry("max_on_s", output.MaxOnSeconds);
        writer.EndMap();
    }

    private void WriteSwitching(SwitchingFields fields)
    {
        var after = fields.Switching.AfterMilliseconds;
        writer.StartMap(Layout.OneLine);
        writer.Entry("t", fields.Switching.Second);
        writer.Entry("after_ms", after > 0 ? after : null);
        writer.Entry("controller", fields.Controller.Name);
        writer.Entry("output", fields.Switching.Output);
        writer.Entry("do", fields.Do);
        writer.Entry("polarity", fields.Polarity);
        writer.Entry("pulse_ms", fields.PulseMilliseconds);
        writer.Entry("opening", fields.Switching.Opening);
        writer.EndMap();
    }

    private void WriteSums(SkippedWater skipped, ZoneTotals totals)
    {
        var description = new SkippedWaterDescription(_site, writer);
        description.Write(skipped.Water.Where(water => IsWanted(water.Zone)));
        var (runs, more) = HeldRun.First(timetable, Limits.TakenRuns, run => IsWanted(_site.Zones[run.Planned.Zone]));
        description.WriteRuns(timetable, runs, more);
        SunDescription.Write(_site, timetable.Horizon, writer);
        writer.List("totals", totals.ByZone().Where(total => IsWanted(total.Zone)), WriteTotal);
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

    private void WriteEnd(CsvRuns runs, CsvOpenings openings, CsvSwitchings switchings)
    {
        if (Has(TimetableList.Runs)) writer.Entry("runs", runs.Count);
        if (Has(TimetableList.Openings)) writer.Entry("openings", openings.Count);
        if (Has(TimetableList.Switchings)) writer.Entry("switchings", switchings.Count);
        var valid = Validity.Of(timetable);
        if (Has(TimetableList.Runs)) writer.Entry("sha256", Encoding.ASCII.GetBytes(runs.Hash(valid)));
        if (Has(TimetableList.Openings)) writer.Entry("openings_sha256", Encoding.ASCII.GetBytes(openings.Hash(valid)));
        if (Has(TimetableList.Switchings)) writer.Entry("switchings_sha256", Encoding.ASCII.GetBytes(switchings.Hash(valid)));
    }

    private bool IsWanted(Zone zone) => options.Controller is null || zone.Controller?.Index == options.Controller.Index;
}
