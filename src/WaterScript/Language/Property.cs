using System.Collections.Immutable;

namespace WaterScript.Language;

/// <summary>
/// A property that a block may have: all that is said of it. The reference, the described site and its JSON Schema come from this; the binder finds
/// by the type how its value is read.
/// </summary>
/// <param name="Name">Its word.</param>
/// <param name="Form">How it is written, as the reference shows it.</param>
/// <param name="Help">One line of help.</param>
internal abstract record Property(string Name, string Form, string Help)
{
    /// <summary>What holds when it is not written, in words; empty for "not known".</summary>
    public string Default { get; init; } = "";

    /// <summary>Whether a block without it is an error.</summary>
    public bool IsRequired { get; init; }

    /// <summary>Of one that is required: the word of another property that may stand in its place; null for none.</summary>
    public string? OrElse { get; init; }

    /// <summary>Whether it may stand several times.</summary>
    public bool MayRepeat { get; init; }

    /// <summary>What its value is.</summary>
    internal abstract PropertyType ValueType { get; }

    /// <summary>The keys of the described site under which it is found: one for each part of its value.</summary>
    internal abstract ImmutableArray<DescribedKey> Keys { get; init; }

    /// <summary>Whether it is described even where it is not written, because a default holds.</summary>
    internal bool IsAlwaysDescribed { get; init; }

    /// <summary>The only key, or the first.</summary>
    internal string Key => Keys[0].Name;

    /// <summary>Whether it is the same: seen by its word at once, as it is asked of each property of each block.</summary>
    internal bool Is(Property other) => ReferenceEquals(this, other) || (Name == other.Name && Equals(other));
}

/// <summary>A property whose type is known, so that its value has a type where it is read and where it is written.</summary>
/// <typeparam name="T">Its type.</typeparam>
/// <param name="Name">Its word.</param>
/// <param name="Form">How it is written.</param>
/// <param name="Help">One line of help.</param>
/// <param name="Type">What its value is.</param>
internal sealed record Property<T>(string Name, string Form, string Help, T Type) : Property(Name, Form, Help)
    where T : PropertyType
{
    internal override PropertyType ValueType => Type;

    /// <summary>By its word and unit, unless it is said where the property stands in the schema.</summary>
    internal override ImmutableArray<DescribedKey> Keys { get; init; } = Type.KeysOf(Name.Replace('-', '_'), Help);
}
