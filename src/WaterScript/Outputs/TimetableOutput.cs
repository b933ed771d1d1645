using WaterScript.Timetables;

namespace WaterScript.Outputs;

/// <summary>Writes timetables. The same timetable gives the same bytes everywhere; it is written as it is expanded, and never held whole.</summary>
public static class TimetableOutput
{
    /// <summary>Writes a timetable as UTF-8 without a byte-order mark.</summary>
    /// <param name="timetable">What to write.</param>
    /// <param name="format">As what.</param>
    /// <param name="options">Which parts of it.</param>
    /// <param name="output">Where to; it is left open.</param>
    /// <exception cref="IOException">The output cannot be written.</exception>
    public static void Write(Timetable timetable, OutputFormat format, OutputOptions options, Stream output)
    {
        ArgumentNullException.ThrowIfNull(timetable);
        ArgumentNullException.ThrowIfNull(options);
        if (format == OutputFormat.Csv)
        {
            TimetableCsv.Write(timetable, options, output);
            return;
        }

        using DocumentWriter writer = format == OutputFormat.Yaml ? new YamlWriter(output) : new JsonWriter(output, isIndented: true);
        new TimetableDocument(timetable, options, writer).Write();
    }
}
