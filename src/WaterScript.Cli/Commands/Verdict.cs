using System.Globalization;
using NodaTime.Text;
using WaterScript.Binding;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;
using WaterScript.Timetables;

namespace WaterScript.Cli.Commands;

/// <summary>What a check comes to, with what was looked at and what was not.</summary>
internal static class Verdict
{
    private const string NotChecked = "Not checked yet: water, power, restrictions, plants and soil.";
    private static readonly LocalDatePattern Day = LocalDatePattern.CreateWithInvariantCulture("d MMM uuuu");

    /// <summary>Two lines at most.</summary>
    /// <param name="reading">What was read.</param>
    /// <param name="path">The root file.</param>
    /// <param name="findings">All that was found.</param>
    /// <param name="horizon">The dates that were looked at; null when reading found errors.</param>
    public static string Of(SiteReading reading, string path, IEnumerable<Finding> findings, Horizon? horizon)
    {
        var name = reading.Site?.DisplayName ?? (path == SiteFile.Standard ? path : ShownPath.Of(path));
        return $"{name}: {Tally.Of(findings)}. Read {Counted(Math.Max(1, reading.Files.Length), "file")}{Looked(reading, horizon)}";
    }

    private static string Looked(SiteReading reading, Horizon? horizon)
    {
        if (horizon is null) return "; what it does in time was not looked at, because of the errors.";
        var site = reading.Site!;
        var last = horizon.Until.PlusDays(-1);
        return $" with {Counted(site.Zones.Length, "zone")} and {Counted(site.Schedules.Length, "schedule")}. "
            + $"Checked {Day.Format(horizon.From)} to {Day.Format(last)}: days and times.\n{NotChecked}";
    }

    private static string Counted(int count, string word) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {word}{(count == 1 ? "" : "s")}");
}
