using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Editing.Nights;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Editing.Hints;

/// <summary>A line above a schedule: when it comes next, and how much water that is.</summary>
/// <param name="Span">The word that begins the schedule, and its name.</param>
/// <param name="Schedule">Its name.</param>
/// <param name="Words">What is shown.</param>
internal sealed record Lens(TextSpan Span, string Schedule, string Words)
{
    /// <summary>The lines of a file; none where reading the site gave an error.</summary>
    public static IEnumerable<Lens> In(EditedSite site, FileNode file)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(file);
        if (site is not { Nights: { } nights, Words: { } words }) return [];
        return file.Statements.OfType<ScheduleNode>()
            .Select(node => (Node: node, Schedule: nights.Site.Schedules.FirstOrDefault(each => each.Name == node.Name.Text)))
            .Where(entry => entry.Schedule is not null)
            .Select(entry => new Lens(TextSpan.FromBounds(entry.Node.Span.Start, entry.Node.Name.Span.End), entry.Schedule!.Name,
                Of(entry.Schedule, nights, words)));
    }

    private static string Of(Schedule schedule, SiteNights nights, NightWords words)
    {
        if (schedule.IsManual) return "manual";
        if (nights.NextOf(schedule) is not { } day) return $"not due before {MomentWords.Date(nights.LookedUntil)[4..]}";
        ImmutableArray<NightRun> runs = [.. nights.RunsOn(day).Where(run => run.Run.Schedule == schedule.Index)];
        if (runs.IsEmpty) return NightWords.ShortDay(day);
        var litres = words.Litres(NightSums.Litres(runs, nights.Site)) is { } water ? ", " + water : "";
        var passes = runs.Select(run => (run.Run.StartNumber, run.Run.Pass, run.Run.PassStart)).Distinct().ToList();
        if (passes.Count == 1 || schedule.Repeat is null)
            return $"{NightWords.ShortDay(day)} {words.Span(runs[0].Run.PassStart, runs.Max(run => run.Run.End))}{litres}";
        var left = passes.Where(pass => pass.PassStart > nights.Now).ToList();
        var isUnderWay = passes[0].PassStart <= nights.Now && left.Count > 0;
        var from = isUnderWay ? "now" : $"{NightWords.ShortDay(day)} {words.Time(passes[0].PassStart)}";
        var count = string.Create(CultureInfo.InvariantCulture, $"{(isUnderWay ? $"{left.Count} more" : MomentWords.Times(passes.Count))}");
        var today = isUnderWay ? " today" : "";
        return $"{from} to {words.Time(passes[^1].PassStart)}, every {Phrases.Length((long)schedule.Repeat.Every.TotalSeconds)}, {count}{litres}{today}";
    }
}
