using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Language;
using WaterScript.Quantities;
using WaterScript.Syntax;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Editing.Cards;

/// <summary>Finds the card of a place: the least thing there that has one.</summary>
internal static class CardFinder
{
    /// <summary>The card at an offset; null where there is nothing to say.</summary>
    public static Card? At(EditedSite site, FileNode file, ImmutableArray<Lexeme> lexemes, int offset)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(file);
        var index = Lexemes.IndexAt(lexemes, offset);
        if (index < lexemes.Length && lexemes[index].IsComment && lexemes[index].Span.Start <= offset) return null;
        if (site.Names.At(file.Source, offset) is { } use && new ThingCards(site).Of(use) is { } thing) return thing;
        if (Quantity(lexemes, index, offset) is { } quantity) return quantity;
        var statement = file.Statements.FirstOrDefault(each => each.Span.Start <= offset && offset < each.Span.End);
        return statement switch
        {
            BlockNode block => Property(block, offset),
            ScheduleNode schedule => InSchedule(site, schedule, file.Source, offset),
            SequenceNode sequence => InSteps(site, sequence.Steps, file.Source, offset),
            ExtraNode extra => InSteps(site, extra.Steps, file.Source, offset),
            _ => null,
        };
    }

    private static Card? Quantity(ImmutableArray<Lexeme> lexemes, int index, int offset)
    {
        if (index >= lexemes.Length || lexemes[index].Span.Start > offset) return null;
        var number = lexemes[index].Kind == TokenKind.Number ? index : index - 1;
        if (number < 0 || number + 1 >= lexemes.Length || lexemes[number].Kind != TokenKind.Number
            || Units.Find(lexemes[number + 1].Text) is not { } unit) return null;
        return decimal.TryParse(lexemes[number].Text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value)
            && value < Diagnostics.Limits.MostNumber
            ? ValueCards.OfQuantity(TextSpan.Cover(lexemes[number].Span, lexemes[number + 1].Span), value, unit)
            : null;
    }

    private static Card? Property(BlockNode block, int offset)
    {
        var inner = block.Body.OfType<BlockNode>().FirstOrDefault(each => each.Span.Start <= offset && offset < each.Span.End);
        var schema = SchemaOf(inner ?? block);
        var property = (inner ?? block).Body.OfType<PropertyNode>().FirstOrDefault(each => each.Name.Span.Start <= offset && offset <= each.Name.Span.End);
        return property is not null && schema?.Properties.FirstOrDefault(each => each.Name == property.Name.Text) is { } known
            ? ValueCards.OfProperty(property.Name.Span, schema, known)
            : null;
    }

    /// <summary>What may stand in a block; null for a kind that there is not.</summary>
    public static BlockSchema? SchemaOf(BlockNode block)
    {
        ArgumentNullException.ThrowIfNull(block);
        var kind = block is { Kind.Text: "valve", Header: [_, var type, ..] } ? $"valve {type.Text}" : block.Kind.Text;
        return Schema.Blocks.FirstOrDefault(schema => schema.Kind == kind);
    }

    private static Card? InSchedule(EditedSite site, ScheduleNode schedule, SourceText source, int offset)
    {
        if (site is not { Nights: { } nights, Words: { } words }) return null;
        var line = schedule.Body.FirstOrDefault(each => each.Span.Start <= offset && offset < each.Span.End);
        return line switch
        {
            StepsNode steps => InSteps(site, steps.Steps, source, offset),
            null => null,
            _ => new LineCards(site, nights, words, source).Of(schedule, line),
        };
    }

    /// <summary>Whether a place is in the word before an injector: <c>through</c>.</summary>
    private static bool IsBefore(WaterNode water, NameNode injector, int offset) => offset < injector.Span.Start
        && offset >= new[] { water.For?.Span.End ?? 0, water.With?.Span.End ?? 0, water.Zones.Span.End }.Max();

    /// <summary>Steps nest no deeper than the parser lets them.</summary>
    private static Card? InSteps(EditedSite site, ImmutableArray<StepNode> steps, SourceText source, int offset)
    {
        if (site is not { Nights: { } nights, Words: { } words }) return null;
        var cards = new StepCards(nights, words, source);
        return steps.FirstOrDefault(each => each.Span.Start <= offset && offset < each.Span.End) switch
        {
            WaterNode { Through.Injector: { } by } water when IsBefore(water, by, offset) => cards.OfDose(water),
            WaterNode water => cards.Of(water),
            TogetherNode together => InSteps(site, together.Waters.CastArray<StepNode>(), source, offset),
            CycleNode cycle => InSteps(site, cycle.Steps, source, offset) ?? cards.Of(cycle),
            RepeatStepsNode repeat => InSteps(site, repeat.Steps, source, offset),
            _ => null,
        };
    }
}
