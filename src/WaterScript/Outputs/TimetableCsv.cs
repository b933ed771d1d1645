using WaterScript.Timetables;

namespace WaterScript.Outputs;

/// <summary>The runs of a timetable as a table (RFC 4180), closed by their count and hash.</summary>
internal static class TimetableCsv
{
    private const int BufferSize = 1 << 15;

    /// <summary>Writes the table.</summary>
    public static void Write(Timetable timetable, OutputOptions options, Stream output)
    {
        var buffered = new BufferedStream(output, BufferSize);
        using var lines = new CsvRuns();
        var fields = new RunFields(timetable);
        buffered.Write(lines.Header());
        foreach (var run in timetable.RunsFor(options.Controller))
        {
            fields.Take(run);
            buffered.Write(lines.Line(fields));
        }

        buffered.Write(lines.Closing());
        buffered.Flush();
    }
}
