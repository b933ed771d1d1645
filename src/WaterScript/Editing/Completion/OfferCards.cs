using WaterScript.Editing.Cards;
using WaterScript.Editing.Names;
using WaterScript.Language;
using WaterScript.Text;

namespace WaterScript.Editing.Completion;

/// <summary>What is said of something that is offered, once somebody looks at it: the same as of where it stands.</summary>
internal static class OfferCards
{
    private const char Between = ' ';

    /// <summary>How something with a name is called.</summary>
    public static string AboutName(NameKind kind, string name) => $"{kind}{Between}{name}";

    /// <summary>How a property is called.</summary>
    public static string AboutProperty(BlockSchema block, Property property)
    {
        ArgumentNullException.ThrowIfNull(block);
        ArgumentNullException.ThrowIfNull(property);
        return $"{property.Name}{Between}{block.Kind}";
    }

    /// <summary>The card of what is called so; null where there is none.</summary>
    public static Card? Of(EditedSite site, string about)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(about);
        if (about.Split(Between, 2) is not [var first, var second]) return null;
        var nowhere = new TextSpan(0, 0);
        if (Enum.TryParse<NameKind>(first, out var kind) && Enum.IsDefined(kind))
            return new ThingCards(site).Of(new NameUse(kind, second, new Location(site.Reading.Files[0].Source, nowhere)));
        var block = Schema.Blocks.FirstOrDefault(each => each.Kind == second);
        return block?.Find(first) is { } property ? ValueCards.OfProperty(nowhere, block, property) : null;
    }
}
