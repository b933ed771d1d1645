using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Agronomy;
using WaterScript.Diagnostics;
using WaterScript.Editing.Names;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Editing.Changes;

/// <summary>Other ways to write the same watering.</summary>
internal static class Rewrites
{
    /// <summary>Those at a stretch of a file.</summary>
    public static IEnumerable<EditorAction> At(CheckedSite site, NameIndex names, FileNode file, TextSpan span)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(file);
        if (site.Lint is null || site.Reading.Site is not { } model || !file.Statements.Any(statement => statement.Span.Contains(span))) return [];
        var body = file.Statements.First(statement => statement.Span.Contains(span));
        ImmutableArray<StepNode> steps = StepsOf(body);
        return
        [
            .. All(steps).OfType<WaterNode>().Where(step => step.Span.Contains(span)).SelectMany(step => OtherAmount(model, file.Source, step)),
            .. Extracted(file.Source, body, steps, span),
            .. new NamedParts(site, names, file).At(body, [.. All(steps)], span),
            .. All(steps).OfType<RunNode>().Where(step => step.Span.Contains(span)).SelectMany(step => Inlined(site, file.Source, step)),
        ];
    }

    /// <summary>All steps of a statement at the top of a file, those inside of others too.</summary>
    public static IEnumerable<StepNode> StepsIn(StatementNode statement) => All(StepsOf(statement));

    private static ImmutableArray<StepNode> StepsOf(StatementNode statement) => statement switch
    {
        ScheduleNode schedule => [.. schedule.Body.OfType<StepsNode>().SelectMany(steps => steps.Steps)],
        SequenceNode sequence => sequence.Steps,
        ExtraNode extra => extra.Steps,
        _ => [],
    };

    /// <summary>Steps and those inside of them; they nest no deeper than the parser lets them.</summary>
    private static IEnumerable<StepNode> All(IEnumerable<StepNode> steps) => steps.SelectMany(step => All(step switch
    {
        RepeatStepsNode repeat => repeat.Steps,
        CycleNode cycle => cycle.Steps,
        TogetherNode together => together.Waters.CastArray<StepNode>(),
        _ => ImmutableArray<StepNode>.Empty,
    }).Prepend(step));

    /// <summary>A time as an amount, or an amount as a time, where both come to the same seconds at every share of them.</summary>
    private static IEnumerable<EditorAction> OtherAmount(Site site, SourceText source, WaterNode node)
    {
        if (Found(site, source, node) is not { Parts: [{ Zones: [{ LitresPerMinute: { } flow } zone] }] } step) yield break;
        if (step.For is { } time && node.For is { } row)
        {
            var litres = flow * (decimal)time.TotalSeconds / 60;
            if (litres != Math.Round(litres, 2) || litres == 0) yield break;
            var amount = string.Create(CultureInfo.InvariantCulture, $"{litres:0.##} L");
            yield return Written(source, node, row, $"with {amount}", $"Write {amount} in place of {source.Slice(row.Span)}");
        }
        else if (step.With is { } with && node.With is { } written && RunTime.SecondsFor(with, zone) is { } seconds && seconds == Math.Floor(seconds)
            && seconds > 0)
        {
            var length = Phrases.Length((long)seconds);
            yield return Written(source, node, written, $"for {length}", $"Write {length} in place of {source.Slice(written.Span)}");
        }
    }

    private static EditorAction Written(SourceText source, WaterNode node, RowNode row, string text, string title) => new(
        EditorAction.Rewrite, title, [new TextEdit(new Location(source, TextSpan.FromBounds(node.Zones.Span.End, row.Span.End)), $" {text}")]);

    private static WaterStep? Found(Site site, SourceText source, WaterNode node)
    {
        var origin = new Location(source, node.Span);
        return site.Schedules.SelectMany(Answers.WaterSteps.Of).FirstOrDefault(step => step.Origin == origin);
    }

    /// <summary>Steps of a schedule under a name of their own, above it.</summary>
    private static IEnumerable<EditorAction> Extracted(SourceText source, StatementNode body, ImmutableArray<StepNode> steps, TextSpan span)
    {
        if (body is not ScheduleNode schedule) yield break;
        var touched = steps.Where(step => step.Span.Start <= span.End && span.Start <= step.Span.End).ToList();
        var chosen = span.Length > 0 ? touched : schedule.Body.OfType<StepsNode>().Any(each => IsOnWord(each, span)) ? [.. steps] : [];
        if (chosen.Count < 2) yield break;
        var text = source.Slice(TextSpan.FromBounds(chosen[0].Span.Start, chosen[^1].Span.End));
        var name = $"{schedule.Name.Text}-steps";
        var above = new Location(source, new TextSpan(source.LineSpan(source.PositionOf(schedule.Span.Start).Line).Start, 0));
        yield return new EditorAction(EditorAction.Extract, $"Extract {chosen.Count} steps into a sequence",
        [
            new TextEdit(above, $"sequence {name} {{\n  {text}\n}}\n\n"),
            new TextEdit(new Location(source, TextSpan.FromBounds(chosen[0].Span.Start, chosen[^1].Span.End)), $"run {name}"),
        ]);
    }

    private static bool IsOnWord(StepsNode steps, TextSpan span) => steps.Span.Start <= span.Start && span.End <= steps.Span.Start + "steps".Length;

    /// <summary>The steps of a sequence in the place of the line that runs them.</summary>
    private static IEnumerable<EditorAction> Inlined(CheckedSite site, SourceText source, RunNode run)
    {
        foreach (var file in site.Reading.Files)
        {
            if (file.Statements.OfType<SequenceNode>().FirstOrDefault(each =>
                each.Name.Text == run.Sequence.Text) is not { Steps: [var first, ..] } sequence) continue;
            var text = file.Source.Slice(TextSpan.FromBounds(first.Span.Start, sequence.Steps[^1].Span.End));
            // A line that accepts something is no step of a schedule.
            if (!sequence.Accepts.Any(accept => accept.Span.Start > first.Span.Start))
                yield return new EditorAction(EditorAction.Inline, $"Put the steps of {run.Sequence.Text} here",
                    [new TextEdit(new Location(source, run.Span), text)]);
            yield break;
        }
    }
}
