using System.Collections.Immutable;

namespace WaterScript.Language;

/// <summary>An entry of the described site that a property, or a part of its value, is found in.</summary>
/// <param name="Name">Its key.</param>
/// <param name="Shape">What stands there.</param>
/// <param name="Help">One line of help; empty where the shape says it.</param>
internal sealed record DescribedKey(string Name, ValueShape Shape, string Help = "")
{
    /// <summary>Whether it is there even where the property is not written.</summary>
    public bool IsAlways { get; init; }

    /// <summary>The key within its value that is meant, or null: a month of twelve.</summary>
    public string? Inner { get; init; }

    /// <summary>How the property is written so that the key is there, if not in its usual form.</summary>
    public string? Form { get; init; }

    /// <summary>Where the described site has it, if not where it has the block.</summary>
    public string? Section { get; init; }
}

/// <summary>What stands in an entry of the described site.</summary>
internal abstract record ValueShape;

/// <summary>A number with at most four decimals, so that one above nothing may be described as nothing.</summary>
/// <param name="Bounds">What it lies between.</param>
internal sealed record NumberShape(Bounds Bounds) : ValueShape;

/// <summary>A whole number from one on.</summary>
/// <param name="Most">The greatest.</param>
internal sealed record CountShape(int Most) : ValueShape;

/// <summary>True, or else missing.</summary>
internal sealed record TrueShape : ValueShape;

/// <summary>True or false.</summary>
internal sealed record TrueOrFalseShape : ValueShape;

/// <summary>A text.</summary>
internal sealed record TextShape : ValueShape;

/// <summary>One of some words.</summary>
internal sealed record WordShape(ImmutableArray<string> Words) : ValueShape;

/// <summary>What the JSON Schema defines by name: a date, the shares of twelve months.</summary>
internal sealed record DefinedShape(string Name) : ValueShape
{
    /// <summary>A name of the source.</summary>
    public static DefinedShape NameOfSource { get; } = new("name");

    /// <summary>A date.</summary>
    public static DefinedShape Date { get; } = new("date");
}

/// <summary>A list.</summary>
/// <param name="Item">What each of its items is.</param>
/// <param name="Least">The least number of items.</param>
/// <param name="Most">The greatest number of items, or null.</param>
internal sealed record ListShape(ValueShape Item, int Least = 0, int? Most = null) : ValueShape;
