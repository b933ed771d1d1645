using WaterScript.Documents.Writers;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Documents.Timetables;

/// <summary>Writes timetables. The same timetable gives the same bytes everywhere; it is written as it is expanded, and never held whole.</summary>
internal static class TimetableOutput
{
    /// <summary>Writes a timetable as UTF-8 without a byte-order mark.</summary>
    /// <param name="timetable">What to write.</param>
    /// <param name="format">As what.</param>
    /// <param name="options">Which parts of it.</param>
    /// <param name="output">Where to; it is left open.</param>
    /// <exception cref="IOException">The output cannot be written.</exception>
    /// <exception cref="SwitchingContractException">
    /// Its switchings are to be written, and break the contract with the device. What has been written then has no end, and no hash.
    /// </exception>
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

    /// <summary>Verifies that the dates of a timetable fit into what a device counts with.</summary>
    /// <exception cref="SwitchingContractException">They do not.</exception>
    public static void VerifyDates(Timetable timetable)
    {
        ArgumentNullException.ThrowIfNull(timetable);
        SwitchingContract.VerifyDates(timetable);
    }

    /// <summary>Verifies, without writing anything, that the switchings of a timetable keep to the contract with the device that carries them out.</summary>
    /// <param name="timetable">The timetable.</param>
    /// <param name="controller">Only this one's; null for all.</param>
    /// <param name="isForDevice">Whether they are a list on their own, which has to fit into a device's clock.</param>
    /// <exception cref="SwitchingContractException">They do not.</exception>
    public static void VerifySwitchings(Timetable timetable, Controller? controller, bool isForDevice)
    {
        ArgumentNullException.ThrowIfNull(timetable);
        new SwitchedOutputs(timetable.Site, controller).Add(timetable, timetable.OpeningsFor(controller), isForDevice);
    }
}
