using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Agronomy;
using WaterScript.Binding;
using WaterScript.Editing.Cards;
using WaterScript.Editing.Names;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Syntax.Tokens;

namespace WaterScript.Editing.Completion;

/// <summary>Values that may come next: names of a kind, units, days, times, rules.</summary>
/// <param name="site">The site.</param>
/// <param name="lexemes">The words of the file.</param>
internal sealed class Values(EditedSite site, ImmutableArray<Lexeme> lexemes)
{
    /// <summary>Names of a kind, those of the file before those built in.</summary>
    public IEnumerable<Offer> Names(NameKind kind)
    {
        var own = site.Names.Of(kind).Select(each => new Offer(each.Name, each.Label is { } label ? Text.DisplayLine.CleanLine(label) : each.Word,
            OfferKind.Name)
        { About = OfferCards.AboutName(kind, each.Name) });
        return kind switch
        {
            NameKind.Soil => own.Concat(SoilTable.All.Select(soil => BuiltIn(kind, soil.Name, BuiltInWords.Of(soil))))
                .DistinctBy(offer => offer.Label),
            NameKind.Plants => own.Concat(PlantTable.All.Select(plants => BuiltIn(kind, plants.Name, BuiltInWords.Of(plants))))
                .Append(new Offer("none", "waters no plants", OfferKind.Value)).DistinctBy(offer => offer.Label),
            _ => own,
        };
    }

    private static Offer BuiltIn(NameKind kind, string name, string detail) =>
        new(name, detail, OfferKind.Value) { About = OfferCards.AboutName(kind, name) };

    /// <summary>Zones in order of their outputs, groups, and all; without those in a list already.</summary>
    public IEnumerable<Offer> Zones(CursorPlace place)
    {
        ArgumentNullException.ThrowIfNull(place);
        var zones = site.Names.Declarations.Where(each => each.Word == "zone").OrderBy(each => Model(each.Name)?.Output ?? int.MaxValue)
            .Select(each => new Offer(each.Name, Detail(each, Model(each.Name)), OfferKind.Name) { About = OfferCards.AboutName(NameKind.Zone, each.Name) });
        var groups = site.Names.Declarations.Where(each => each.Word == "group")
            .Select(each => new Offer(each.Name, "group", OfferKind.Name) { About = OfferCards.AboutName(NameKind.Zone, each.Name) });
        return zones.Concat(groups).Append(new Offer("all", "every zone", OfferKind.Word)).Where(offer => !place.Has(offer.Label));
    }

    private Zone? Model(string name) => site.Site?.Zones.FirstOrDefault(zone => zone.Name == name);

    private string Detail(NameDeclaration declared, Zone? zone) => string.Join(", ", new[]
    {
        declared.Label is { } label ? Text.DisplayLine.CleanLine(label) : null,
        zone?.Flow?.ToString(),
        site.Words?.Rate(zone?.MillimetresPerHour),
    }.OfType<string>());

    /// <summary>Pumps, master valves or injectors.</summary>
    public IEnumerable<Offer> Devices(string word) => site.Names.Declarations.Where(each => each.Word == word)
        .Select(each => new Offer(each.Name, word, OfferKind.Name) { About = OfferCards.AboutName(NameKind.Zone, each.Name) });

    /// <summary>Units of some dimensions, those that the file has first.</summary>
    public IEnumerable<Offer> UnitsOf(params IEnumerable<Dimension> dimensions)
    {
        var used = lexemes.Select(lexeme => lexeme.Text).ToHashSet(StringComparer.Ordinal);
        return dimensions.SelectMany(dimension => Units.Of(dimension)).DistinctBy(unit => unit.Symbol).OrderBy(unit => used.Contains(unit.Symbol) ? 0 : 1)
            .Select(unit => new Offer(unit.Symbol, "", OfferKind.Unit));
    }

    /// <summary>Free outputs, the lowest first, then those that are taken.</summary>
    public IEnumerable<Offer> OutputNumbers()
    {
        var taken = Outputs.Taken(site);
        return Outputs.Numbers(site).OrderBy(number => taken.ContainsKey(number) ? 1 : 0).Select(number => new Offer(
            number.ToString(CultureInfo.InvariantCulture), taken.GetValueOrDefault(number) is { } by ? $"taken by {by}" : "free", OfferKind.Value));
    }

    /// <summary>Days of the week, then forms of days, then dates under a name.</summary>
    public IEnumerable<Offer> Days() =>
    [
        .. DayBinder.WeekdayNames.Select(day => new Offer(day, "", OfferKind.Value)),
        new("odd days", "of the month", OfferKind.Value), new("even days", "of the month", OfferKind.Value), new("days 1, 15 of month", "", OfferKind.Value),
        new("first mon of month", "", OfferKind.Value), new("last day of month", "", OfferKind.Value),
        .. Names(NameKind.Let),
    ];

    /// <summary>The times of the file, then the sun.</summary>
    public IEnumerable<Offer> Times() =>
    [
        .. lexemes.Where(lexeme => lexeme.Kind == TokenKind.Clock).Select(lexeme => lexeme.Text).Distinct().Order(StringComparer.Ordinal)
            .Select(time => new Offer(time, "", OfferKind.Value)),
        new("sunrise", SunWords.On(site, SunEvent.Sunrise), OfferKind.Value), new("sunset", SunWords.On(site, SunEvent.Sunset), OfferKind.Value),
    ];

    /// <summary>Rules that a line may accept, those first that are found in the block around it.</summary>
    /// <param name="found">The rules of what is found there.</param>
    public static IEnumerable<Offer> Rules(IEnumerable<string> found)
    {
        var counts = found.CountBy(rule => rule).ToDictionary(StringComparer.Ordinal);
        return RuleCatalogue.Rules.Where(rule => rule.CanBeAccepted).OrderBy(rule => counts.ContainsKey(rule.Slug) ? 0 : 1)
            .Select(rule => new Offer(rule.Slug, counts.TryGetValue(rule.Slug, out var count) ? $"found {Wording.MomentWords.Times(count)} here"
                : rule.Title, OfferKind.Value)
            { About = OfferCards.AboutName(NameKind.Rule, rule.Slug) });
    }

    /// <summary>Words as they are.</summary>
    public static IEnumerable<Offer> Words(params IEnumerable<string> words) => words.Select(word => new Offer(word, "", OfferKind.Word));
}
