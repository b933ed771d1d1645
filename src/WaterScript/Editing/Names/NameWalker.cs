using WaterScript.Language;
using WaterScript.Syntax;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Editing.Names;

/// <summary>Finds the names in the statements of a file. Steps lie in one another no deeper than the parser lets them.</summary>
/// <param name="source">The file.</param>
/// <param name="lets">The names of quantities and dates that the site declares.</param>
internal sealed class NameWalker(SourceText source, IReadOnlySet<string> lets)
{
    /// <summary>The names in a statement at the top of the file, in no order.</summary>
    public IEnumerable<NameUse> In(StatementNode statement)
    {
        var inside = statement switch
        {
            BlockNode block => InBlock(block),
            GroupNode group => InZones(group.Zones),
            LetNode let => InRow(let.Value),
            SequenceNode sequence => [.. sequence.Steps.SelectMany(InStep), .. sequence.Accepts.SelectMany(In)],
            ScheduleNode schedule => schedule.Body.SelectMany(In),
            RestrictionNode restriction => restriction.Body.SelectMany(In),
            HoldNode hold => [.. InZones(hold.Zones), .. InDate(hold.From), .. InDate(hold.To), .. InRow(hold.For), .. InMoment(hold.FromTime),
                .. InMoment(hold.ToTime)],
            ClosedNode closed => [.. InDate(closed.From), .. InDate(closed.To)],
            SkipNode skip => [.. skip.Schedules.Select(name => Use(NameKind.Schedule, name)), .. skip.Days.SelectMany(InDay)],
            KeepNode keep => [Use(NameKind.Restriction, keep.Restriction)],
            NamedDaysNode days => days.Days.SelectMany(InDay),
            ExtraNode extra => [.. InDate(extra.Date), .. InMoment(extra.Time), .. extra.Steps.SelectMany(InStep)],
            AcceptNode accept => [Use(NameKind.Rule, accept.Rule), .. InDate(accept.Until)],
            _ => InPart(statement),
        };
        return NameDeclaration.Of(statement, source) is { } declared
            ? inside.Prepend(new NameUse(declared.Kind, declared.Name, declared.Where) { IsDeclaration = true })
            : inside;
    }

    /// <summary>In what stands inside of schedules and restrictions.</summary>
    private IEnumerable<NameUse> InPart(StatementNode statement) => statement switch
    {
        EveryNode every => InDay(every.Interval),
        OnNode on => on.Days.SelectMany(InDay),
        FromNode from => [.. InDate(from.First), .. InDate(from.To), .. InRow(from.For)],
        ExceptNode except => except.Days.SelectMany(InDay),
        StartAtNode start => [.. start.Moments.SelectMany(InMoment), .. start.On.SelectMany(InDay)],
        FinishByNode finish => [.. finish.Moments.SelectMany(InMoment), .. finish.On.SelectMany(InDay)],
        StartAfterNode after => [Use(NameKind.Schedule, after.Other), .. InRow(after.Delay)],
        RepeatPassesNode repeat => [.. InRow(repeat.Every), .. InMoment(repeat.Until)],
        CutNode cut => InMoment(cut.At),
        UseScaleNode scale => InNames(scale.Value, NameKind.Scale).Take(1),
        StepsNode steps => steps.Steps.SelectMany(InStep),
        ForZonesNode zones => InZones(zones.Zones),
        AllowDaysNode days => days.Days.SelectMany(InDay),
        AllowHoursNode hours => [.. InMoment(hours.From), .. InMoment(hours.To)],
        AtMostNode most => InRow(most.Value),
        ExemptNode exempt => [.. InZones(exempt.Zones), .. InDate(exempt.From), .. InDate(exempt.To), .. InRow(exempt.For)],
        _ => [],
    };

    private IEnumerable<NameUse> InStep(StepNode step) => step switch
    {
        WaterNode water => [.. InZones(water.Zones), .. InRow(water.For), .. InRow(water.With),
            .. water.Through is { } by ? [Use(NameKind.Zone, by.Injector), .. InRow(by.For), .. InRow(by.With)] : NoUses],
        TogetherNode together => together.Waters.SelectMany(InStep),
        PauseNode pause => InRow(pause.Duration),
        RepeatStepsNode repeat => repeat.Steps.SelectMany(InStep),
        CycleNode cycle => [.. InRow(cycle.Cycle), .. InRow(cycle.Soak), .. cycle.Steps.SelectMany(InStep)],
        RunNode run => [Use(NameKind.Sequence, run.Sequence)],
        _ => [],
    };

    private IEnumerable<NameUse> InBlock(BlockNode block)
    {
        var properties = PropertiesOf(block);
        foreach (var statement in block.Body)
        {
            if (statement is PropertyNode property)
            {
                foreach (var use in InProperty(property, properties)) yield return use;
            }
            else if (statement is BlockNode inner)
            {
                foreach (var use in inner.Body.OfType<PropertyNode>().SelectMany(each => InRow(each.Value))) yield return use;
            }
            else if (statement is AcceptNode accept)
            {
                foreach (var use in In(accept)) yield return use;
            }
        }
    }

    /// <summary>What may stand in a block.</summary>
    private static BlockSchema? PropertiesOf(BlockNode block)
    {
        var kind = block is { Kind.Text: "valve", Header: [_, var type, ..] } ? $"valve {type.Text}" : block.Kind.Text;
        return Schema.Blocks.FirstOrDefault(schema => schema.Kind == kind);
    }

    private IEnumerable<NameUse> InProperty(PropertyNode property, BlockSchema? schema) =>
        schema?.Properties.FirstOrDefault(known => known.Name == property.Name.Text)?.ValueType switch
        {
            ReferenceType reference when KindOf(reference) is { } kind => InNames(property.Value, kind).Take(1),
            OutputType => InNames(property.Value, NameKind.Controller).Where(use => use.Name != "of").Take(1),
            OutputsType => InNames(property.Value, NameKind.Controller).Where((use, index) => index % 2 == 1),
            BatteryType when property.Value.Tokens is [{ Text: "of" }, ..] =>
                InNames(property.Value, NameKind.Controller).Where(use => use.Name != "of").Take(1),
            ReturnsType => InNames(property.Value, NameKind.Supply).Where(use => use.Name != "to").Take(1),
            ZoneNamesType => InNames(property.Value, NameKind.Zone),
            _ => InRow(property.Value),
        };

    private static NameKind? KindOf(ReferenceType reference) =>
        NameDeclaration.KindOf(reference.What[(reference.What.LastIndexOf(' ') + 1)..]);

    private IEnumerable<NameUse> InNames(RowNode row, NameKind kind) => row.Tokens.Where(token => token.Kind == TokenKind.Word)
        .Select(token => new NameUse(lets.Contains(token.Text) && kind == NameKind.Scale ? NameKind.Let : kind, token.Text, new Location(source, token.Span)));

    private IEnumerable<NameUse> InRow(RowNode? row) => (row?.Tokens ?? []).Where(token => token.Kind == TokenKind.Word && lets.Contains(token.Text))
        .Select(token => new NameUse(NameKind.Let, token.Text, new Location(source, token.Span)));

    private IEnumerable<NameUse> InZones(ZoneListNode? zones) =>
        (zones?.Parts ?? []).SelectMany(part => part.Names).Select(name => Use(NameKind.Zone, name));

    private IEnumerable<NameUse> InDate(DateNode? date) => date is null ? [] : date.Base is LetDateNode let
        ? [new NameUse(NameKind.Let, let.Name, new Location(source, let.Span)), .. InRow(date.Offset)]
        : InRow(date.Offset);

    private IEnumerable<NameUse> InMoment(MomentNode? moment) => InRow(moment?.Offset);

    private IEnumerable<NameUse> InDay(DayNode day) => day switch
    {
        DateRangeNode range => [.. InDate(range.First), .. InDate(range.Last)],
        IntervalNode interval => [.. interval.On.SelectMany(InDay), .. InDate(interval.From)],
        _ => [],
    };

    private static IEnumerable<NameUse> NoUses => [];

    private NameUse Use(NameKind kind, NameNode name) => new(kind, name.Text, new Location(source, name.Span));
}
