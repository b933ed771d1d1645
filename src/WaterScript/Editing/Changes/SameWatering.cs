using System.Collections.Immutable;
using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Linting.Fixes;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Editing.Changes;

/// <summary>Reads a site with a change before anybody is shown it: it brings no error, and what is watered stays what it was.</summary>
internal static class SameWatering
{
    /// <summary>Why a change is not to be made, as the rest of a sentence; null where nothing speaks against it.</summary>
    /// <param name="reading">The site as it is.</param>
    /// <param name="edits">The change, in one of its files or several.</param>
    public static string? WhyNot(SiteReading reading, ImmutableArray<TextEdit> edits)
    {
        ArgumentNullException.ThrowIfNull(reading);
        if (reading.Again is not { } again) return null;
        ImmutableArray<TextEdit> inOrder =
            [.. edits.Distinct().OrderBy(edit => edit.Location.Source.Path, StringComparer.Ordinal).ThenBy(edit => edit.Location.Span.Start)];
        var changed = again(FixSet.Apply([new Fix("", IsSafe: true, inOrder)]));
        if (NewError(reading, changed) is { } error) return $"it brings an error: {DisplayLine.CleanLine(error.Heading)}";
        if (reading is not { Site: { } before, Findings.HasErrors: false }) return null;
        return changed.Site is { } after && Tally(before) == Tally(after) ? null : "the timetable would differ";
    }

    private static Finding? NewError(SiteReading before, SiteReading after)
    {
        var known = Errors(before).CountBy(finding => finding.Rule).ToDictionary();
        return Errors(after).GroupBy(finding => finding.Rule).Where(rule => rule.Count() > known.GetValueOrDefault(rule.Key)).Select(rule => rule.First())
            .FirstOrDefault();
    }

    private static IEnumerable<Finding> Errors(SiteReading reading) => reading.Findings.Where(finding => finding.Severity == Severity.Error);

    /// <summary>
    /// What the site does on the dates of a check, in two numbers: names are not in it, nor is the order of what begins at once, which goes by them. What would
    /// be more work than a check may take is left out on both sides.
    /// </summary>
    private static (long Runs, ulong Sum) Tally(Site site)
    {
        var budget = new WorkBudget(Limits.CheckWorkOf(site.SourceLength));
        var (runs, sum) = (0L, 0UL);
        try
        {
            var all = Timetable.Of(site, CheckHorizon.Of(site), budget).Runs().Concat(site.Schedules.Where(schedule => schedule.IsManual)
                .SelectMany(schedule => Timetable.OfOnePass(site, schedule, site.Effective.At(NodaTime.LocalTime.Noon), budget).Runs()));
            foreach (var run in all) (runs, sum) = (runs + 1, sum + Mixed(run));
        }
        catch (WorkUsedUpException)
        {
            return default;
        }

        return (runs, sum);
    }

    private static ulong Mixed(in Run run)
    {
        var mixed = 0UL;
        ReadOnlySpan<long> parts =
            [run.Start, run.End, run.Overlap, run.Zone, run.Schedule, run.Day, run.StartNumber, run.Pass, run.Injector, run.Soak, run.Dose];
        foreach (var part in parts)
            mixed = System.Numerics.BitOperations.RotateLeft((mixed ^ (ulong)part) * 0x9E3779B97F4A7C15, 29);
        return mixed;
    }
}
