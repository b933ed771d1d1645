using NodaTime;
using NodaTime.Text;
using WaterScript.Timetables;

namespace WaterScript.Tests.Oracles;

/// <summary>
/// What a calendar of a timetable has to expand to, worked out from the runs alone, as <c>20260401T050000Z 20260401T052000Z</c> in the order of the bytes.
/// </summary>
internal static class ExpectedEvents
{
    private static readonly InstantPattern Stamp = InstantPattern.CreateWithInvariantCulture("uuuuMMdd'T'HHmmss'Z'");

    /// <summary>A pass lasts from its start until its last run ends.</summary>
    public static string[] Passes(Timetable timetable) => Lines(timetable, timetable.Runs()
        .GroupBy(run => (run.Schedule, run.Day, run.StartNumber, run.Pass))
        .Select(pass => (pass.First().PassStart, pass.Max(run => run.End))));

    /// <summary>A step lasts from the start of the first of its runs until the last one ends; lengths that begin together are one.</summary>
    public static string[] Steps(Timetable timetable) => Lines(timetable, timetable.Runs()
        .GroupBy(run => (run.Schedule, run.Day, run.StartNumber, run.Pass, Step: timetable.StepPath(run)))
        .Select(step => (step.Min(run => run.Start), step.Max(run => run.End))));

    /// <summary>A day of a schedule lasts from the start of its first pass until its last run ends.</summary>
    public static string[] Days(Timetable timetable) => Lines(timetable, timetable.Runs()
        .GroupBy(run => (run.Schedule, run.Day))
        .Select(day => (day.Min(run => run.PassStart), day.Max(run => run.End))));

    /// <summary>An instant as a reader prints it.</summary>
    public static string Shown(long unixSeconds) => Stamp.Format(Instant.FromUnixTimeSeconds(unixSeconds));

    /// <summary>Those that start before the horizon ends; a series without an end goes on after it.</summary>
    private static string[] Lines(Timetable timetable, IEnumerable<(long Start, long End)> spans)
    {
        var until = timetable.Site.TimeZone.AtStartOfDay(timetable.Horizon.Until).ToInstant().ToUnixTimeSeconds();
        return [.. spans.Where(span => span.Start < until).Select(span => $"{Shown(span.Start)} {Shown(span.End)}").Order(StringComparer.Ordinal)];
    }
}
