using System.Collections.Immutable;
using WaterScript.Agronomy;
using WaterScript.Binding;
using WaterScript.Binding.Values;
using WaterScript.Editing.Names;
using WaterScript.Language;
using WaterScript.Quantities;
using WaterScript.Syntax;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Editing.Outline;

/// <summary>The colours of a file by what its words mean. A name that nobody knows has none: the finding shows it.</summary>
internal static class Colours
{
    private static readonly HashSet<string> Values = new(
        [
            .. Schema.Blocks.SelectMany(block => block.Properties).Select(property => property.ValueType).OfType<WordType>().SelectMany(type => type.Words),
            .. DayBinder.WeekdayNames, .. MonthNames.All, "latching", "non-latching", "sunrise", "sunset",
        ],
        StringComparer.Ordinal);

    private static readonly HashSet<string> BuiltIn =
        new([.. SoilTable.All.Select(soil => soil.Name), .. PlantTable.All.Select(plants => plants.Name), "none"], StringComparer.Ordinal);

    /// <summary>The colours, in order of place.</summary>
    public static IEnumerable<Colour> Of(FileNode file, ImmutableArray<Lexeme> lexemes, NameIndex names)
    {
        ArgumentNullException.ThrowIfNull(file);
        ArgumentNullException.ThrowIfNull(names);
        var uses = names.In(file.Source).DistinctBy(use => use.Where.Span.Start).ToDictionary(use => use.Where.Span.Start);
        var properties = file.Statements.OfType<BlockNode>().SelectMany(PropertiesOf).Select(name => name.Span.Start).ToHashSet();
        var end = 0;
        for (var i = 0; i < lexemes.Length; i++)
        {
            var lexeme = lexemes[i];

            // A name that is written as two words has one colour.
            if (lexeme.Span.Start < end) continue;
            if (lexeme.Kind == TokenKind.Number && i + 1 < lexemes.Length && Units.Find(lexemes[i + 1].Text) is not null)
                yield return new Colour(TextSpan.Cover(lexeme.Span, lexemes[++i].Span), ColourKind.Number);
            else if (Of(lexeme, uses, properties, names) is { } colour)
            {
                end = colour.Span.End;
                yield return colour;
            }
        }
    }

    private static IEnumerable<NameNode> PropertiesOf(BlockNode block) =>
        block.Body.SelectMany(statement => statement switch
        {
            PropertyNode property => [property.Name],
            BlockNode inner => [inner.Kind, .. inner.Body.OfType<PropertyNode>().Select(property => property.Name)],
            _ => Enumerable.Empty<NameNode>(),
        });

    private static Colour? Of(Lexeme lexeme, Dictionary<int, NameUse> uses, HashSet<int> properties, NameIndex names)
    {
        if (lexeme.IsComment) return new Colour(lexeme.Span, ColourKind.Comment);
        if (lexeme.Kind == TokenKind.String) return new Colour(lexeme.Span, ColourKind.String);
        if (lexeme.Kind is TokenKind.Number or TokenKind.Clock or TokenKind.Date) return new Colour(lexeme.Span, ColourKind.Number);
        if (!lexeme.IsWord) return null;
        if (uses.TryGetValue(lexeme.Span.Start, out var use)) return Of(use, names);
        if (properties.Contains(lexeme.Span.Start)) return new Colour(lexeme.Span, ColourKind.Property);
        if (Values.Contains(lexeme.Text)) return new Colour(lexeme.Span, ColourKind.EnumMember, ColourModifiers.Readonly);
        return LanguageWords.Contains(lexeme.Text) ? new Colour(lexeme.Span, ColourKind.Keyword) : null;
    }

    private static Colour? Of(NameUse use, NameIndex names)
    {
        var modifiers = use.IsDeclaration ? ColourModifiers.Declaration : ColourModifiers.None;
        if (use.Kind == NameKind.Rule) return new Colour(use.Where.Span, ColourKind.Label);
        if (names.DeclarationOf(use.Kind, use.Name) is { } declaration) return new Colour(use.Where.Span, KindOf(declaration), modifiers);
        if (use is { Kind: NameKind.Zone, Name: "all" }) return new Colour(use.Where.Span, ColourKind.Variable, ColourModifiers.Readonly);
        return use.Kind is NameKind.Soil or NameKind.Plants && BuiltIn.Contains(use.Name)
            ? new Colour(use.Where.Span, ColourKind.Struct, ColourModifiers.DefaultLibrary)
            : null;
    }

    private static ColourKind KindOf(NameDeclaration declaration) => declaration.Word switch
    {
        "zone" or "group" => ColourKind.Variable,
        "sequence" => ColourKind.Function,
        "schedule" => ColourKind.Method,
        "let" or "days" => ColourKind.Parameter,
        "supply" or "controller" or "pump" or "master" or "injector" or "site" => ColourKind.Class,
        _ => ColourKind.Struct,
    };
}
