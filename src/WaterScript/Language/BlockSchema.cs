using System.Collections.Immutable;

namespace WaterScript.Language;

/// <summary>A kind of block: one table of the schema.</summary>
/// <param name="Kind">Its word.</param>
/// <param name="Help">One line of help.</param>
/// <param name="Properties">What may stand in it.</param>
internal sealed record BlockSchema(string Kind, string Help, ImmutableArray<Property> Properties)
{
    /// <summary>Words of blocks inside it.</summary>
    public ImmutableArray<string> Inner { get; init; } = [];

    /// <summary>Its word as one of its kind: <c>a zone</c>, <c>an injector</c>.</summary>
    public string Article => $"{(Kind[0] == 'i' ? "an" : "a")} {Kind}";

    /// <summary>Where the described site has it, as a path of keys: <c>controllers/power</c>. Lists are passed through.</summary>
    public required string Section { get; init; }

    /// <summary>The property of a name, or null.</summary>
    public Property? Find(string name)
    {
        foreach (var property in Properties)
        {
            if (property.Name == name) return property;
        }

        return null;
    }
}
