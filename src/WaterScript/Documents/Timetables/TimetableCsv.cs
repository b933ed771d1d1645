using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Documents.Timetables;

/// <summary>A list of a timetable as a table (RFC 4180), closed by its count and hash.</summary>
internal static class TimetableCsv
{
    private const int BufferSize = 1 << 15;

    /// <summary>Writes the table: the runs, unless another list is asked for.</summary>
    public static void Write(Timetable timetable, OutputOptions options, Stream output)
    {
        var buffered = new BufferedStream(output, BufferSize);
        var notes = ClosingNotes.Of(timetable.Site, options.Provenance);
        switch (options.Only)
        {
            case TimetableList.Openings:
                WriteOpenings(timetable, options.Controller, notes, buffered);
                break;
            case TimetableList.Switchings:
                WriteSwitchings(timetable, options.Controller, notes, buffered);
                break;
            default:
                WriteRuns(timetable, options.Controller, notes, buffered);
                break;
        }

        buffered.Flush();
    }

    /// <summary>
    /// The hash that closes the list of switchings, of one controller or of all; null where there is no such list, since it would break the contract.
    /// </summary>
    public static string? HashOfSwitchings(Timetable timetable, Controller? controller)
    {
        try
        {
            return WriteSwitchings(timetable, controller, new ClosingNotes("", "", "", ""), Stream.Null);
        }
        catch (SwitchingContractException)
        {
            return null;
        }
    }

    private static void WriteRuns(Timetable timetable, Controller? controller, ClosingNotes notes, BufferedStream output)
    {
        using var lines = new CsvRuns();
        var fields = new RunFields(timetable);
        output.Write(lines.Header.Span);
        foreach (var run in timetable.RunsFor(controller))
        {
            fields.Take(run);
            output.Write(lines.Line(fields));
        }

        output.Write(lines.Closing(Validity.Of(timetable), notes));
    }

    private static void WriteOpenings(Timetable timetable, Controller? controller, ClosingNotes notes, BufferedStream output)
    {
        using var lines = new CsvOpenings();
        var fields = new OpeningFields(timetable.Site);
        output.Write(lines.Header.Span);
        foreach (var opening in timetable.OpeningsFor(controller))
        {
            fields.Take(opening);
            output.Write(lines.Line(fields));
        }

        output.Write(lines.Closing(Validity.Of(timetable), notes));
    }

    /// <summary>Every line says how long its output is ever on, so all of it is walked once before.</summary>
    private static string WriteSwitchings(Timetable timetable, Controller? controller, ClosingNotes notes, Stream output)
    {
        var outputs = new SwitchedOutputs(timetable.Site, controller);
        outputs.Add(timetable, timetable.OpeningsFor(controller), isForDevice: true);
        using var lines = new CsvSwitchings();
        var fields = new SwitchingFields(timetable.Site, outputs, isForDevice: true);
        output.Write(lines.Header.Span);
        foreach (var switching in timetable.SwitchingsFor(controller))
        {
            fields.Take(switching);
            output.Write(lines.Line(fields));
        }

        fields.End();
        var valid = Validity.Of(timetable);
        output.Write(lines.Closing(valid, notes));
        return lines.Hash(valid);
    }
}
