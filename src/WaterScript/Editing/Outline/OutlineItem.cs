using System.Collections.Immutable;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Editing.Outline;

/// <summary>A part of a file, as a list of its parts shows it.</summary>
/// <param name="Word">What it is, by the word that begins it; <c>month</c> for a line of a scale.</param>
/// <param name="Name">What it is called.</param>
/// <param name="Detail">What tells it from others of its kind; may be empty.</param>
/// <param name="All">All of it.</param>
/// <param name="NameSpan">Where its name stands.</param>
/// <param name="Children">Parts of it.</param>
internal sealed record OutlineItem(string Word, string Name, string Detail, TextSpan All, TextSpan NameSpan, ImmutableArray<OutlineItem> Children)
{
    /// <summary>The parts of a file, in its order.</summary>
    public static ImmutableArray<OutlineItem> Of(FileNode file)
    {
        ArgumentNullException.ThrowIfNull(file);
        return [.. file.Statements.Select(statement => Of(statement, file.Source)).OfType<OutlineItem>()];
    }

    private static OutlineItem? Of(StatementNode statement, SourceText source) => statement switch
    {
        BlockNode { Header: [var name, ..] } block => Named(block.Kind.Text, name, DetailOf(block, source), block) with { Children = Months(block, source) },
        BlockNode block => Named(block.Kind.Text, block.Kind, "", block),
        GroupNode group => Named("group", group.Name, Written(source, group.Zones.Span), group),
        LetNode let => Named("let", let.Name, Written(source, let.Value.Span), let),
        NamedDaysNode days => Named("days", days.Name, days.Days.IsEmpty ? "" : Written(source, TextSpan.Cover(days.Days[0].Span, days.Days[^1].Span)), days),
        SkipNode skip => new OutlineItem("skip", "skip", DisplayLine.CleanLine(skip.Because.Value), skip.Span, Head(skip, 4), []),
        SequenceNode sequence => Named("sequence", sequence.Name, Steps(sequence.Steps.Length), sequence) with { Children = Parts(sequence.Steps, source) },
        ScheduleNode schedule => Named("schedule", schedule.Name, DaysOf(schedule, source), schedule) with { Children = Parts(StepsOf(schedule), source) },
        RestrictionNode restriction => Named("restriction", restriction.Name, Label(restriction.Label), restriction),
        HoldNode hold => new OutlineItem("hold", "hold", DisplayLine.CleanLine(hold.Because.Value), hold.Span, Head(hold, 4), []),
        ClosedNode closed => new OutlineItem("closed", "closed", Written(source, TextSpan.Cover(closed.From.Span, closed.To.Span)), closed.Span,
            Head(closed, 6), []),
        ExtraNode extra => new OutlineItem("extra", Written(source, extra.Date.Span), DisplayLine.CleanLine(extra.Because.Value), extra.Span, extra.Date.Span,
            Parts(extra.Steps, source)),
        _ => null,
    };

    private static OutlineItem Named(string word, NameNode name, string detail, Node node) => new(word, name.Text, detail, node.Span, name.Span, []);

    private static TextSpan Head(Node node, int length) => new(node.Span.Start, Math.Min(length, node.Span.Length));

    private static string DetailOf(BlockNode block, SourceText source) => block.Kind.Text switch
    {
        "site" => Value(block, "timezone", source),
        "supply" => Value(block, "flow", source),
        "controller" when Value(block, "outputs", source) is { Length: > 0 } outputs => $"{outputs} outputs",
        "valve" => block.Header is [_, var type, ..] ? type.Text : "",
        "pump" or "master" or "injector" when Value(block, "output", source) is { Length: > 0 } output => $"output {output}",
        "zone" => string.Join(", ", new[] { Label(block.Label), Value(block, "output", source) }.Where(text => text.Length > 0)),
        "scale" => MonthsOf(block) is [var first, .., var last] ? $"{first.Name.Text} to {last.Name.Text}" : Label(block.Label),
        _ => Label(block.Label),
    };

    private static string Value(BlockNode block, string property, SourceText source) =>
        block.Body.OfType<PropertyNode>().FirstOrDefault(each => each.Name.Text == property) is { } found ? Written(source, found.Value.Span) : "";

    private static ImmutableArray<PropertyNode> MonthsOf(BlockNode block) =>
        [.. block.Body.OfType<PropertyNode>().Where(property => Language.MonthNames.All.Contains(property.Name.Text))];

    private static ImmutableArray<OutlineItem> Months(BlockNode block, SourceText source) => block.Kind.Text != "scale" ? [] :
    [
        .. MonthsOf(block).Select(month => new OutlineItem("month", month.Name.Text, Written(source, month.Value.Span), month.Span, month.Name.Span, [])),
    ];

    private static string DaysOf(ScheduleNode schedule, SourceText source) => schedule.Body.Select(statement => statement switch
    {
        OnNode { Days: [var first, ..] days } => Written(source, TextSpan.Cover(first.Span, days[^1].Span)),
        EveryNode every => Written(source, every.Span),
        ManualNode => "manual",
        StartAfterNode after => $"after {after.Other.Text}",
        _ => "",
    }).FirstOrDefault(text => text.Length > 0) ?? "";

    private static ImmutableArray<StepNode> StepsOf(ScheduleNode schedule) => [.. schedule.Body.OfType<StepsNode>().SelectMany(steps => steps.Steps)];

    /// <summary>Steps that hold others; they nest no deeper than the parser lets them.</summary>
    private static ImmutableArray<OutlineItem> Parts(ImmutableArray<StepNode> steps, SourceText source) =>
    [
        .. steps.Select(step => step switch
        {
            RepeatStepsNode repeat => new OutlineItem("repeat", $"repeat {Written(source, repeat.Times.Span)}", Steps(repeat.Steps.Length), repeat.Span,
                Head(repeat, 6), Parts(repeat.Steps, source)),
            CycleNode cycle => new OutlineItem("cycle", "cycle", CycleOf(cycle, source), cycle.Span, Head(cycle, 5), Parts(cycle.Steps, source)),
            _ => null,
        }).OfType<OutlineItem>(),
    ];

    private static string CycleOf(CycleNode cycle, SourceText source) =>
        cycle is { Cycle: { } piece, Soak: { } soak } ? $"{Written(source, piece.Span)} soak {Written(source, soak.Span)}" : "auto";

    private static string Steps(int count) => Wording.Phrases.Count(count, "step");

    private static string Label(StringNode? label) => label is null ? "" : DisplayLine.CleanLine(label.Value);

    private static string Written(SourceText source, TextSpan span) => DisplayLine.CleanLine(source.Slice(span));
}
