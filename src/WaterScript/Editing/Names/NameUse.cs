using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Editing.Names;

/// <summary>A place where a name stands.</summary>
/// <param name="Kind">What it is of.</param>
/// <param name="Name">The name.</param>
/// <param name="Where">The place.</param>
internal readonly record struct NameUse(NameKind Kind, string Name, Location Where)
{
    /// <summary>Whether it is given its name here.</summary>
    public bool IsDeclaration { get; init; }
}

/// <summary>Where something is given its name.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Word">The word that begins its statement: <c>pump</c>.</param>
/// <param name="Name">Its name.</param>
/// <param name="Label">What people call it, or null.</param>
/// <param name="Where">Where the name stands.</param>
/// <param name="Node">The whole statement.</param>
internal sealed record NameDeclaration(NameKind Kind, string Word, string Name, string? Label, Location Where, StatementNode Node)
{
    /// <summary>What declares a name; null for a statement that declares none.</summary>
    public static NameDeclaration? Of(StatementNode statement, SourceText source) => statement switch
    {
        BlockNode { Header: [var name, ..] } block when KindOf(block.Kind.Text) is { } kind => Of(kind, block.Kind.Text, name, block.Label, block, source),
        GroupNode group => Of(NameKind.Zone, "group", group.Name, group.Label, group, source),
        NamedDaysNode days => Of(NameKind.Let, "days", days.Name, days.Label, days, source),
        LetNode let => Of(NameKind.Let, "let", let.Name, null, let, source),
        SequenceNode sequence => Of(NameKind.Sequence, "sequence", sequence.Name, sequence.Label, sequence, source),
        ScheduleNode schedule => Of(NameKind.Schedule, "schedule", schedule.Name, schedule.Label, schedule, source),
        RestrictionNode restriction => Of(NameKind.Restriction, "restriction", restriction.Name, restriction.Label, restriction, source),
        _ => null,
    };

    /// <summary>What the name after a word is of; null where none is given there.</summary>
    public static NameKind? KindOf(string word) => word switch
    {
        "site" => NameKind.Site,
        "supply" => NameKind.Supply,
        "tariff" => NameKind.Tariff,
        "controller" => NameKind.Controller,
        "valve" => NameKind.Valve,
        "zone" or "pump" or "master" or "injector" => NameKind.Zone,
        "soil" => NameKind.Soil,
        "plants" => NameKind.Plants,
        "scale" => NameKind.Scale,
        _ => null,
    };

    private static NameDeclaration Of(NameKind kind, string word, NameNode name, StringNode? label, StatementNode node, SourceText source) =>
        new(kind, word, name.Text, label?.Value, new Location(source, name.Span), node);
}
