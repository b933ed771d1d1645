using System.Globalization;
using System.Text;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Simulation;

/// <summary>Compares a timetable with the reference.</summary>
internal static class Agreement
{
    /// <summary>Holds that the runs are those of the reference, and in order.</summary>
    /// <param name="site">The site.</param>
    /// <param name="horizon">The dates.</param>
    /// <param name="context">What a failure prints: the source.</param>
    /// <returns>How many runs agree.</returns>
    public static int OfRuns(Site site, Horizon horizon, string context)
    {
        var expected = ReferenceRuns.Of(site, horizon);
        var actual = RunsOf(Timetable.Of(site, horizon)).ToList();
        for (var i = 1; i < actual.Count; i++)
            Assert.True(OrderOf(site, actual[i - 1]).CompareTo(OrderOf(site, actual[i])) <= 0, $"out of order at {Shown(site, actual[i])}\n{context}");

        var wanted = expected.ToHashSet();
        if (actual.Count == expected.Count && wanted.Count == expected.Count && actual.ToHashSet().Count == actual.Count
            && actual.TrueForAll(wanted.Contains)) return actual.Count;
        var missing = expected.Except(actual).ToList();
        var surplus = actual.Except(expected).ToList();
        Assert.Fail(Difference(site, horizon, missing, surplus, context));
        return 0;
    }

    public static IEnumerable<ReferenceRun> RunsOf(Timetable timetable) => timetable.Runs().Select(run => new ReferenceRun(
        run.Start, run.End, run.Overlap, run.Zone, timetable.Site.Schedules[run.Schedule].Name, CivilDate.FromDayNumber(run.Day).ToLocalDate(),
        run.StartNumber, run.Pass, run.PassStart, timetable.StepPath(run),
        run.Injector < 0 ? null : timetable.Site.Devices[run.Injector].Name)
    {
        Dose = run.Dose switch { 0 => null, < 0 => 0, var dose => dose },
    });

    /// <summary>What is watered by hand comes after all that controllers open, in order of the file.</summary>
    private static (long Start, int Controller, int Output) OrderOf(Site site, ReferenceRun run) => site.Zones[run.Zone].Controller is { } controller
        ? (run.Start, controller.Index, site.Zones[run.Zone].Output)
        : (run.Start, site.Controllers.Length, run.Zone);

    private static string Difference(Site site, Horizon horizon, List<ReferenceRun> missing, List<ReferenceRun> surplus, string context)
    {
        var text = new StringBuilder().AppendLine(CultureInfo.InvariantCulture, $"from {horizon.From:uuuu-MM-dd} until {horizon.Until:uuuu-MM-dd}");
        text.AppendLine(CultureInfo.InvariantCulture, $"{missing.Count} runs missing:");
        foreach (var run in missing.Take(6)) text.AppendLine(Shown(site, run));
        text.AppendLine(CultureInfo.InvariantCulture, $"{surplus.Count} runs too many:");
        foreach (var run in surplus.Take(6)) text.AppendLine(Shown(site, run));
        return text.AppendLine(context).ToString();
    }

    private static string Shown(Site site, ReferenceRun run) => string.Create(
        CultureInfo.InvariantCulture,
        $"  {Instant.FromUnixTimeSeconds(run.Start).InZone(site.TimeZone):uuuu-MM-dd HH:mm:ss o<g>} {site.Zones[run.Zone].Name} "
            + $"{run.End - run.Start} s +{run.Overlap} s, {run.Schedule} of {run.Day:uuuu-MM-dd} start {run.StartNumber} "
            + $"pass {run.Pass} at {run.PassStart} step {run.Step} dose {run.Dose}");
}
