using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Documents.Timetables;

/// <summary>Keeps a list of switchings from being written that a device could not rely on, whatever options say. A device carries out what it gets.</summary>
internal static class DeviceListGuard
{
    /// <summary>Why the switchings may not be written, as words that follow a colon; null when they may, or are not asked for.</summary>
    /// <param name="check">The site as it was checked.</param>
    /// <param name="timetable">What is to be written.</param>
    /// <param name="format">As what.</param>
    /// <param name="options">Which parts of it.</param>
    public static string? WhyNot(CheckedSite check, Timetable timetable, OutputFormat format, OutputOptions options)
    {
        var hasSwitchings = options.Only == TimetableList.Switchings || (options.Only is null && format != OutputFormat.Csv);
        if (!hasSwitchings) return null;
        if (check.Worst == Severity.Error && WhyNotDespiteErrors(check, timetable.Site, options.Controller) is { } reason) return reason;
        var mayBreak = check.Worst == Severity.Error || check.Accepted.Length > 0;
        return BreachOf(timetable, options, mayBreak);
    }

    /// <summary>
    /// What could not be read may be an output or a kind of valve: a latching valve that is taken for another one would have its coil powered for
    /// minutes. So a file with an error in it drives nothing. Errors in what a site does are no obstacle unless they are about outputs.
    /// </summary>
    private static string? WhyNotDespiteErrors(CheckedSite check, Site site, Controller? controller)
    {
        if (check.Lint is null) return "part of the file could not be read, and what is missing may be an output or a kind of valve";
        var wiring = WiredOutput.AllOf(site).Where(wired => controller is null || wired.Controller.Index == controller.Index).ToList();
        if (wiring.Find(wired => wired.Number > wired.Controller.Outputs) is { } missing)
            return $"{missing.Controller.Name} has no output {missing.Number}, which {missing.Name} is wired to";
        var shared = wiring.GroupBy(wired => (wired.Controller.Index, wired.Number)).FirstOrDefault(users => users.Skip(1).Any())?.ToList();
        return shared is null ? null : $"output {shared[0].Number} of {shared[0].Controller.Name} is used by {shared[0].Name} and {shared[1].Name}";
    }

    /// <summary>
    /// Whether dates fit is soon known. Where there are errors, or accepted ones, the list itself is walked before the first byte of it is written;
    /// elsewhere the writer verifies it as it goes.
    /// </summary>
    private static string? BreachOf(Timetable timetable, OutputOptions options, bool mayBreak)
    {
        try
        {
            var isForDevice = options.Only == TimetableList.Switchings;
            if (isForDevice) TimetableOutput.VerifyDates(timetable);
            if (mayBreak) TimetableOutput.VerifySwitchings(timetable, options.Controller, isForDevice);
            return null;
        }
        catch (SwitchingContractException breach)
        {
            return breach.Message;
        }
    }
}
