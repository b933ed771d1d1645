using WaterScript.Text;

namespace WaterScript.Editing.Completion;

/// <summary>What kind of thing is offered, for its sign in the list.</summary>
internal enum OfferKind
{
    /// <summary>A word of the language.</summary>
    Word,

    /// <summary>A property.</summary>
    Property,

    /// <summary>Something that has a name.</summary>
    Name,

    /// <summary>A unit.</summary>
    Unit,

    /// <summary>A value out of a few.</summary>
    Value,

    /// <summary>A whole statement with places to fill.</summary>
    Snippet,

    /// <summary>A file.</summary>
    File,
}

/// <summary>Something that may come next.</summary>
/// <param name="Label">What is inserted, as it is shown.</param>
/// <param name="Detail">One line about it; may be empty.</param>
/// <param name="Kind">Its kind.</param>
internal sealed record Offer(string Label, string Detail, OfferKind Kind)
{
    /// <summary>What is inserted, with places to fill as editors write them: <c>${1:name}</c>; null for the label.</summary>
    public string? Snippet { get; init; }

    /// <summary>Other words by which people look for it; may be empty.</summary>
    public string AlsoCalled { get; init; } = "";

    /// <summary>What it is, for <see cref="OfferCards"/>; empty where there is no more to say.</summary>
    public string About { get; init; } = "";
}

/// <summary>What may come next at a place, the likeliest first.</summary>
/// <param name="Replaced">The word that has been begun; empty where none has.</param>
/// <param name="Items">What is offered.</param>
internal sealed record Offers(TextSpan Replaced, IReadOnlyList<Offer> Items);
