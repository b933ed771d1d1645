using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Documents.Writers;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Documents.Timetables;

/// <summary>Where schedules and their steps are written, by the paths that runs name. It is no part of what was compiled, so neither of its hash.</summary>
/// <param name="site">The site.</param>
/// <param name="provenance">Knows the paths of files.</param>
/// <param name="writer">The document.</param>
internal sealed class StepPlaces(Site site, Provenance provenance, DocumentWriter writer)
{
    /// <summary>Writes them.</summary>
    public void Write() => writer.List("places", site.Schedules.SelectMany(PlacesOf), WritePlace);

    /// <summary>A schedule, then its steps. What a sequence has inside it is named after the step that runs it.</summary>
    private static IEnumerable<(Schedule Schedule, string? Step, Location Place)> PlacesOf(Schedule schedule) =>
        StepsOf(schedule.Steps, "").Select(step => (schedule, (string?)step.Path, step.Step.Origin)).Prepend((schedule, null, schedule.Origin));

    private static IEnumerable<(string Path, Step Step)> StepsOf(IEnumerable<Step> steps, string before)
    {
        foreach (var (index, step) in steps.Index())
        {
            var path = before + (index + 1).ToString(CultureInfo.InvariantCulture);
            yield return (path, step);
            foreach (var inner in StepsOf(InnerOf(step), path + ".")) yield return inner;
        }
    }

    /// <summary>Reading has bounded how deep steps lie in each other.</summary>
    private static ImmutableArray<Step> InnerOf(Step step) => step switch
    {
        RepeatStep repeat => repeat.Steps,
        CycleStep cycle => cycle.Steps,
        RunStep run => run.Sequence.Steps,
        _ => [],
    };

    private void WritePlace((Schedule Schedule, string? Step, Location Place) entry)
    {
        writer.StartMap(Layout.OneLine);
        writer.Entry("schedule", entry.Schedule.Name);
        writer.Entry("step", entry.Step);
        writer.Entry("file", provenance.PathOf(entry.Place.Source));
        writer.Entry("line", entry.Place.Start.Line);
        writer.EndMap();
    }
}
