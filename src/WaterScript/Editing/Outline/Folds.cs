using System.Collections.Immutable;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Editing.Outline;

/// <summary>Lines that can be folded away under the first of them, counted from 1.</summary>
/// <param name="First">It stays.</param>
/// <param name="Last">The last that goes.</param>
/// <param name="Kind"><c>comment</c>, <c>imports</c>, or null.</param>
internal readonly record struct Fold(int First, int Last, string? Kind);

/// <summary>What can be folded.</summary>
internal static class Folds
{
    private const int LeastOfKind = 3;

    /// <summary>Blocks, comments of several lines, rows of includes and rows of one kind.</summary>
    public static IEnumerable<Fold> Of(FileNode file)
    {
        ArgumentNullException.ThrowIfNull(file);
        return file.Statements.SelectMany(statement => InStatement(statement, file.Source)).Concat(Comments(file)).Concat(Rows(file)).Distinct();
    }

    private static IEnumerable<Fold> InStatement(StatementNode statement, SourceText source) => statement switch
    {
        BlockNode block => [.. Block(block, source), .. block.Body.OfType<BlockNode>().SelectMany(inner => Block(inner, source))],
        ScheduleNode schedule => [.. Block(schedule, source), .. schedule.Body.OfType<StepsNode>()
            .SelectMany(each => Block(each, source).Concat(InSteps(each.Steps, source)))],
        SequenceNode sequence => [.. Block(sequence, source), .. InSteps(sequence.Steps, source)],
        ExtraNode extra => [.. Block(extra, source), .. InSteps(extra.Steps, source)],
        RestrictionNode => Block(statement, source),
        _ => [],
    };

    private static IEnumerable<Fold> InSteps(ImmutableArray<StepNode> steps, SourceText source) => steps.SelectMany(step => step switch
    {
        RepeatStepsNode repeat => Block(repeat, source).Concat(InSteps(repeat.Steps, source)),
        CycleNode cycle => Block(cycle, source).Concat(InSteps(cycle.Steps, source)),
        _ => [],
    });

    /// <summary>The brace at the end stays in view.</summary>
    private static IEnumerable<Fold> Block(Node node, SourceText source)
    {
        var (first, last) = (source.PositionOf(node.Span.Start).Line, source.PositionOf(node.Span.End).Line - 1);
        return last > first ? [new Fold(first, last, null)] : [];
    }

    private static IEnumerable<Fold> Comments(FileNode file)
    {
        var lines = file.Comments.Where(comment => IsAlone(comment, file.Source)).Select(comment => file.Source.PositionOf(comment.Start).Line).ToList();
        return RunsOf(lines).Where(run => run.Last > run.First).Select(run => new Fold(run.First, run.Last, "comment"));
    }

    private static bool IsAlone(TextSpan comment, SourceText source)
    {
        var line = source.LineSpan(source.PositionOf(comment.Start).Line);
        return source.Text.AsSpan(line.Start, comment.Start - line.Start).IsWhiteSpace();
    }

    private static IEnumerable<(int First, int Last)> RunsOf(List<int> lines)
    {
        for (var i = 0; i < lines.Count;)
        {
            var first = i;
            while (i + 1 < lines.Count && lines[i + 1] == lines[i] + 1) i++;
            yield return (lines[first], lines[i++]);
        }
    }

    /// <summary>Statements of one kind, each on the line after the one before.</summary>
    private static IEnumerable<Fold> Rows(FileNode file)
    {
        var lines = file.Statements.Select(each => (Kind: KindOf(each), First: file.Source.PositionOf(each.Span.Start).Line,
            Last: file.Source.PositionOf(each.Span.End).Line))
            .ToList();
        for (var i = 0; i < lines.Count; i++)
        {
            var first = i;
            while (i + 1 < lines.Count && lines[i + 1].Kind == lines[i].Kind && lines[i].Kind.Length > 0 && lines[i + 1].First == lines[i].Last + 1) i++;
            if (i - first + 1 >= LeastOfKind) yield return new Fold(lines[first].First, lines[i].Last, lines[i].Kind == "include" ? "imports" : null);
        }
    }

    private static string KindOf(StatementNode statement) => statement switch
    {
        IncludeNode => "include",
        BlockNode block => block.Kind.Text,
        GroupNode => "group",
        LetNode => "let",
        NamedDaysNode => "days",
        SkipNode => "skip",
        KeepNode => "keep",
        HoldNode => "hold",
        ScheduleNode => "schedule",
        _ => "",
    };
}
