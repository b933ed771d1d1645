using System.Collections.Immutable;
using WaterScript.Quantities;
using WaterScript.Syntax;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Editing.Outline;

/// <summary>What is selected when a selection grows.</summary>
internal static class Selections
{
    /// <summary>The stretches around an offset, from the least to the whole file: word, quantity, value, statement, the inside of its block, block.</summary>
    public static IEnumerable<TextSpan> Around(FileNode file, ImmutableArray<Lexeme> lexemes, int offset)
    {
        ArgumentNullException.ThrowIfNull(file);
        var spans = Words(lexemes, offset).Concat(file.Statements.SelectMany(statement => Of(statement, file.Source))).Append(file.Span);
        return spans.Where(span => span.Start <= offset && offset <= span.End && span.Length > 0).Distinct().OrderBy(span => span.Length)
            .Aggregate(ImmutableList<TextSpan>.Empty, (nested, span) => nested.IsEmpty || span.Contains(nested[^1]) ? nested.Add(span) : nested);
    }

    /// <summary>The word at an offset, and the number that it is the unit of.</summary>
    private static IEnumerable<TextSpan> Words(ImmutableArray<Lexeme> lexemes, int offset)
    {
        for (var i = Math.Max(0, Lexemes.IndexAt(lexemes, offset) - 1); i < lexemes.Length && lexemes[i].Span.Start <= offset; i++)
        {
            if (lexemes[i].IsEnd || lexemes[i].IsOpen || lexemes[i].IsClose) continue;
            yield return lexemes[i].Span;
            if (i + 1 < lexemes.Length && lexemes[i].Kind == TokenKind.Number && Units.Find(lexemes[i + 1].Text) is not null)
                yield return TextSpan.Cover(lexemes[i].Span, lexemes[i + 1].Span);
            if (i > 0 && lexemes[i - 1].Kind == TokenKind.Number && Units.Find(lexemes[i].Text) is not null)
                yield return TextSpan.Cover(lexemes[i - 1].Span, lexemes[i].Span);
        }
    }

    private static IEnumerable<TextSpan> Of(Node node, SourceText source) => node switch
    {
        PropertyNode property => [property.Value.Span, property.Span],
        BlockNode block => [.. Block(block, source), .. block.Body.SelectMany(each => Of(each, source))],
        ScheduleNode schedule => [.. Block(schedule, source), .. schedule.Body.SelectMany(each => Of(each, source))],
        RestrictionNode restriction => [.. Block(restriction, source), .. restriction.Body.SelectMany(each => Of(each, source))],
        StepsNode steps => [.. Block(steps, source), .. steps.Steps.SelectMany(each => Of(each, source))],
        SequenceNode sequence => [.. Block(sequence, source), .. sequence.Steps.SelectMany(each => Of(each, source))],
        ExtraNode extra => [.. Block(extra, source), .. extra.Steps.SelectMany(each => Of(each, source))],
        RepeatStepsNode repeat => [.. Block(repeat, source), .. repeat.Steps.SelectMany(each => Of(each, source))],
        CycleNode cycle => [.. Block(cycle, source), .. cycle.Steps.SelectMany(each => Of(each, source))],
        TogetherNode together => [.. together.Waters.SelectMany(each => Of(each, source)), together.Span],
        WaterNode water => [water.Zones.Span, .. water.Zones.Parts.Select(part => part.Span), (water.For ?? water.With)?.Span ?? water.Span, water.Span],
        StartAtNode start => [.. start.Moments.Select(moment => moment.Span), start.Span],
        OnNode on => [.. on.Days.Select(day => day.Span), on.Span],
        LetNode let => [let.Value.Span, let.Span],
        _ => [node.Span],
    };

    /// <summary>A block, and what stands between its braces.</summary>
    private static IEnumerable<TextSpan> Block(Node node, SourceText source)
    {
        var open = source.Text.IndexOf('{', node.Span.Start, node.Span.Length);
        if (open >= 0 && node.Span.End - 1 > open) yield return TextSpan.FromBounds(open + 1, node.Span.End - 1);
        yield return node.Span;
    }
}
