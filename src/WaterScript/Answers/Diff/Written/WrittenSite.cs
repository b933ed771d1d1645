using System.Collections.Immutable;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Answers.Diff.Written;

/// <summary>What the files of a site say, thing by thing, wherever it stands.</summary>
internal static class WrittenSite
{
    /// <summary>The kind of steps under a name.</summary>
    public const string Sequence = "sequence";

    /// <summary>The kind of a schedule, of which only steps, label and note are here: its days and times are compared as they are understood.</summary>
    public const string Schedule = "schedule";

    /// <summary>What a step is called.</summary>
    public const string Step = "step";

    /// <summary>What there is, in order of the files; of what has no name all of a kind together.</summary>
    /// <param name="files">The files.</param>
    /// <param name="hasRules">Whether days and times of schedules, and includes, are part of it: for a file that nothing but its words is known of.</param>
    public static ImmutableArray<WrittenThing> Of(ImmutableArray<FileNode> files, bool hasRules = false)
    {
        var things = files.SelectMany(file => file.Statements.Select(statement => ThingOf(file.Source, statement, hasRules))).OfType<WrittenThing>();
        return [.. things.GroupBy(thing => (thing.Kind, thing.Name)).Select(same => same.First() with { Lines = [.. same.SelectMany(thing => thing.Lines)] })];
    }

    private static WrittenThing? ThingOf(SourceText source, StatementNode statement, bool hasRules) => statement switch
    {
        BlockNode block => Thing(source, block.Kind.Text, block.Header.FirstOrDefault()?.Text ?? "", block, LinesOf(source, block, prefix: "")),
        LetNode let => Thing(source, "let", let.Name.Text, let, [Line(source, "", let.Value)]),
        NamedDaysNode days => Thing(source, "days", days.Name.Text, days, [.. Label(source, days.Label), .. days.Days.Select(day => Line(source, "", day))]),
        KeepNode keep when hasRules => Thing(source, "keep to", "", keep, [Line(source, "", keep)]),
        SkipNode skip when hasRules => Thing(source, "skip", "", skip, [Line(source, "", skip)]),
        GroupNode group => Thing(source, "group", group.Name.Text, group, [.. Label(source, group.Label), Line(source, "", group.Zones)]),
        SequenceNode steps => Thing(source, Sequence, steps.Name.Text, steps, LinesOf(source, steps)),
        ScheduleNode schedule => Thing(source, Schedule, schedule.Name.Text, schedule,
            [.. Label(source, schedule.Label), .. LinesOf(source, schedule, hasRules)]),
        RestrictionNode restriction => Thing(source, "restriction", restriction.Name.Text, restriction,
            [.. Label(source, restriction.Label), .. restriction.Body.Select(line => Line(source, FirstWordOf(source, line), line))]),
        HoldNode hold => Thing(source, "hold", "", hold, [Line(source, "", hold)]),
        ClosedNode closed => Thing(source, "closed", "", closed, [Line(source, "", closed)]),
        AcceptNode accept => Thing(source, "accept", "", accept, [Line(source, "", accept)]),
        ExtraNode extra => Thing(source, "extra", "", extra, [Head(source, "", extra, 0), .. StepsOf(source, extra.Steps)]),
        IncludeNode when hasRules => Thing(source, "include", "", statement, [Line(source, "", statement)]),
        _ => null,
    };

    private static WrittenThing Thing(SourceText source, string kind, string name, Node node, ImmutableArray<WrittenLine> lines) =>
        new(kind, name, new Location(source, node.Span), lines);

    private static ImmutableArray<WrittenLine> LinesOf(SourceText source, BlockNode block, string prefix) =>
    [
        .. block.Header.Skip(prefix.Length == 0 ? 1 : 0).Select(word => Line(source, prefix + "kind", word)),
        .. Label(source, block.Label),
        .. block.Body.SelectMany(statement => LinesOf(source, statement, prefix)),
    ];

    private static ImmutableArray<WrittenLine> LinesOf(SourceText source, StatementNode statement, string prefix) => statement switch
    {
        PropertyNode property => [Line(source, prefix + property.Name.Text, property)],
        BlockNode inner when prefix.Length == 0 => LinesOf(source, inner, inner.Kind.Text + " "),
        AcceptNode => [Line(source, "accept", statement)],
        _ => [Line(source, prefix + FirstWordOf(source, statement), statement)],
    };

    private static ImmutableArray<WrittenLine> LinesOf(SourceText source, SequenceNode steps) =>
        [.. Label(source, steps.Label), .. steps.Accepts.Select(accept => Line(source, "accept", accept)), .. StepsOf(source, steps.Steps)];

    private static IEnumerable<WrittenLine> LinesOf(SourceText source, ScheduleNode schedule, bool hasRules) =>
        schedule.Body.SelectMany(statement => statement switch
    {
        StepsNode steps => StepsOf(source, steps.Steps),
        NoteNode or AcceptNode => [Line(source, FirstWordOf(source, statement), statement)],
        _ => hasRules ? [Line(source, FirstWordOf(source, statement), statement)] : Array.Empty<WrittenLine>(),
    });

    private static IEnumerable<WrittenLine> StepsOf(SourceText source, ImmutableArray<StepNode> steps)
    {
        // The parser has refused steps that nest too deep; a stack keeps the order all the same.
        var pending = new Stack<(StepNode Step, int Depth, long Times)>(steps.Reverse().Select(step => (step, 0, 1L)));
        while (pending.TryPop(out var next))
        {
            yield return Head(source, Step, next.Step, next.Depth) with { Times = next.Times };
            var (inner, times) = next.Step switch
            {
                RepeatStepsNode repeat => (repeat.Steps, (long)repeat.Times.Value),
                CycleNode cycle => (cycle.Steps, 1L),
                _ => ([], 1L),
            };
            foreach (var step in inner.Reverse()) pending.Push((step, next.Depth + 1, Math.Min(next.Times * Math.Max(1, times), int.MaxValue)));
        }
    }

    /// <summary>A statement without the steps in its braces.</summary>
    private static WrittenLine Head(SourceText source, string what, Node node, int depth)
    {
        var place = new Location(source, node.Span);
        var text = WrittenText.Of(place);
        var brace = FirstBrace(text);
        return new WrittenLine(what, brace < 0 ? text : text[..brace].TrimEnd(), place, depth);
    }

    /// <summary>The first brace outside of quotes.</summary>
    private static int FirstBrace(string text)
    {
        var isQuoted = false;
        for (var index = 0; index < text.Length; index++)
        {
            if (text[index] == '"' && (index == 0 || text[index - 1] != '\\')) isQuoted = !isQuoted;
            if (text[index] == '{' && !isQuoted) return index;
        }

        return -1;
    }

    private static ImmutableArray<WrittenLine> Label(SourceText source, StringNode? label) => label is null ? [] : [Line(source, "label", label)];

    private static WrittenLine Line(SourceText source, string what, Node node)
    {
        var place = new Location(source, node.Span);
        return new WrittenLine(what, WrittenText.Of(place), place);
    }

    private static string FirstWordOf(SourceText source, Node node) => WrittenText.Of(new Location(source, node.Span)).Split(' ')[0];
}
