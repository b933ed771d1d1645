using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Editing.Nights;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text;
using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Editing.Strips;

/// <summary>The passes of a date beside the lines that make them. All times are seconds since the noon of that date.</summary>
/// <param name="Day">The date, in days since 1970-01-01.</param>
/// <param name="From">The full hour before the first run of the site.</param>
/// <param name="Until">The full hour after its last.</param>
/// <param name="Lines">The lines of one file that make water, in order.</param>
internal sealed record Strip(int Day, long From, long Until, ImmutableArray<StripLine> Lines)
{
    private const int Hour = 3_600;
    private const int Noon = ZoneClock.SecondsInDay / 2;

    /// <summary>The strip of a file; null where the site has no water on that date, or reading it gave an error.</summary>
    /// <param name="site">The site.</param>
    /// <param name="file">The file.</param>
    /// <param name="day">The date, in days since 1970-01-01.</param>
    public static Strip? Of(EditedSite site, FileNode file, int day)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(file);
        if (site is not { Nights: { } nights, Words: { } words } || nights.RunsOn(day) is not { IsEmpty: false } runs || runs.Length > Limits.ChartRuns)
            return null;
        var noon = new ZoneClock(nights.Site.TimeZone).Read(day, Noon).Instant;
        var (first, last) = (runs.Min(run => run.Run.Start) - noon, runs.Max(run => run.Run.End) - noon);
        var (from, until) = (first - Modulo(first), last + Modulo(-last));
        var lines = new Dictionary<int, (string Name, List<NightRun> Runs)>();
        foreach (var (offset, name, own) in Makers(nights.Site, runs, file))
        {
            var line = file.Source.PositionOf(offset).Line;
            if (lines.TryGetValue(line, out var known)) known.Runs.AddRange(own);
            else lines[line] = (name, [.. own]);
        }

        return new Strip(day, from, until,
        [
            .. lines.OrderBy(line => line.Key).Select(line => StripLine.Of(line.Key, [.. line.Value.Runs.Select(run => run.Run).Distinct()], noon, until - from,
                MarkdownLines.Escaped(Words(line.Value.Name, [.. line.Value.Runs.Distinct()], nights.Site, words)))),
        ]);
    }

    private static long Modulo(long seconds) => ((seconds % Hour) + Hour) % Hour;

    /// <summary>What makes water in a file: where it stands, its name, and its runs.</summary>
    private static IEnumerable<(int Offset, string Name, IEnumerable<NightRun> Runs)> Makers(Site site, ImmutableArray<NightRun> runs, FileNode file)
    {
        var (byZone, bySchedule) = (runs.ToLookup(run => site.Zones[run.Run.Zone].Name), runs.ToLookup(run => site.Schedules[run.Run.Schedule].Name));
        var bySource = runs.Where(run => ReferenceEquals(run.Step.Origin.Source, file.Source)).ToLookup(run => run.Step.Origin.Span.Start);
        foreach (var statement in file.Statements)
        {
            if (statement is BlockNode { Kind.Text: "zone", Header: [var zone, ..] } && byZone.Contains(zone.Text))
                yield return (statement.Span.Start, zone.Text, byZone[zone.Text]);
            if (statement is ScheduleNode schedule && bySchedule.Contains(schedule.Name.Text))
            {
                yield return (statement.Span.Start, schedule.Name.Text, bySchedule[schedule.Name.Text]);
                foreach (var repeat in schedule.Body.OfType<RepeatPassesNode>())
                    yield return (repeat.Span.Start, schedule.Name.Text, bySchedule[schedule.Name.Text]);
            }

            foreach (var made in InSteps(StepsOf(statement), bySource, file.Source)) yield return made;
        }
    }

    private static ImmutableArray<StepNode> StepsOf(StatementNode statement) => statement switch
    {
        ScheduleNode schedule => [.. schedule.Body.OfType<StepsNode>().SelectMany(steps => steps.Steps)],
        SequenceNode sequence => sequence.Steps,
        ExtraNode extra => extra.Steps,
        _ => [],
    };

    /// <summary>Steps nest no deeper than the parser lets them.</summary>
    private static IEnumerable<(int Offset, string Name, IEnumerable<NightRun> Runs)> InSteps(
        ImmutableArray<StepNode> steps, ILookup<int, NightRun> bySource, SourceText source)
    {
        foreach (var step in steps)
        {
            if (step is WaterNode && bySource.Contains(step.Span.Start)) yield return (step.Span.Start, source.Slice(step.Span), bySource[step.Span.Start]);
            var inside = step switch
            {
                RepeatStepsNode repeat => repeat.Steps,
                CycleNode cycle => cycle.Steps,
                TogetherNode together => together.Waters.CastArray<StepNode>(),
                _ => ImmutableArray<StepNode>.Empty,
            };
            var all = InSteps(inside, bySource, source).ToList();
            if (step is RepeatStepsNode && all.Count > 0) yield return (step.Span.Start, "repeat", all.SelectMany(made => made.Runs).Distinct().ToList());
            foreach (var made in all) yield return made;
        }
    }

    /// <summary><c>lemons: Mon 4 May 20:59 to 21:47, 672 L</c></summary>
    private static string Words(string name, List<NightRun> runs, Site site, NightWords words)
    {
        var passes = runs.Select(run => (run.Run.Schedule, run.Run.StartNumber, run.Run.Pass)).Distinct().Count();
        var litres = words.Litres(NightSums.Litres(runs, site)) is { } water ? ", " + water : "";
        var times = passes > 1 ? $", {MomentWords.Times(passes)}" : "";
        var (from, to) = (runs.Min(run => run.Run.Start), runs.Max(run => run.Run.End));
        return $"{DisplayLine.CleanLine(name)}: {NightWords.ShortDay(runs[0].Run.Day)} {words.Span(from, to)}{times}{litres}";
    }
}
