using System.Collections.Immutable;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding.Values;

/// <summary>A property that a block may have: one row of the schema.</summary>
/// <param name="Name">Its word.</param>
/// <param name="Form">How it is written, as the reference shows it.</param>
/// <param name="Help">One line of help.</param>
public abstract record Property(string Name, string Form, string Help)
{
    /// <summary>What holds when it is not written, in words; empty for "not known".</summary>
    public string Default { get; init; } = "";

    /// <summary>Whether a block without it is an error.</summary>
    public bool IsRequired { get; init; }

    /// <summary>Whether it may stand several times.</summary>
    public bool MayRepeat { get; init; }

    /// <summary>Reads its value; null when it could not be read, which is reported.</summary>
    internal abstract object? ReadValue(RowCursor row);
}

/// <summary>A property whose value has a type.</summary>
/// <typeparam name="T">A type that null belongs to.</typeparam>
/// <param name="Name">Its word.</param>
/// <param name="Form">How it is written.</param>
/// <param name="Help">One line of help.</param>
/// <param name="Read">Reads the value.</param>
internal sealed record Property<T>(string Name, string Form, string Help, Func<RowCursor, T> Read) : Property(Name, Form, Help)
{
    internal override object? ReadValue(RowCursor row)
    {
        var value = Read(row);
        row.End();
        return row.HasFailed ? null : value;
    }
}

/// <summary>A kind of block: one table of the schema.</summary>
/// <param name="Kind">Its word.</param>
/// <param name="Help">One line of help.</param>
/// <param name="Properties">What may stand in it.</param>
public sealed record BlockSchema(string Kind, string Help, ImmutableArray<Property> Properties)
{
    /// <summary>Words of blocks inside it.</summary>
    public ImmutableArray<string> Inner { get; init; } = [];

    /// <summary>Its word as one of its kind: <c>a zone</c>, <c>an injector</c>.</summary>
    public string Article => $"{(Kind[0] == 'i' ? "an" : "a")} {Kind}";

    /// <summary>The property of a name, or null.</summary>
    public Property? Find(string name) => Properties.FirstOrDefault(property => property.Name == name);
}

/// <summary>A property that stands in a file, and its value.</summary>
/// <param name="Property">Which.</param>
/// <param name="Origin">The whole statement.</param>
/// <param name="ValueOrigin">The value alone.</param>
/// <param name="Value">The value; null when it could not be read.</param>
internal sealed record BoundProperty(Property Property, Location Origin, Location ValueOrigin, object? Value);

/// <summary>A block whose properties have been read.</summary>
internal sealed class BoundBlock(BlockNode node, SourceText source, IReadOnlyList<BoundProperty> properties)
{
    /// <summary>The block as written.</summary>
    public BlockNode Node => node;

    /// <summary>Its file.</summary>
    public SourceText Source => source;

    /// <summary>Its name, which a block that has none takes from its kind.</summary>
    public NameNode Name => node.Header.IsEmpty ? node.Kind : node.Header[0];

    /// <summary>Where its name stands.</summary>
    public Location Origin => new(source, Name.Span);

    /// <summary>Its label, or null.</summary>
    public string? Label => node.Label?.Value;

    /// <summary>What stands there, in order.</summary>
    public IReadOnlyList<BoundProperty> Properties => properties;

    /// <summary>Where its properties stand.</summary>
    public PropertyLines Lines => new([.. properties.Select(bound => (bound.Property.Name, bound.Origin))]);

    /// <summary>The value of a property, or null where it does not stand there or could not be read.</summary>
    public T? Get<T>(Property<T> property) => Find(property)?.Value is T value ? value : default;

    /// <summary>A property as it stands there, or null.</summary>
    public BoundProperty? Find(Property property) => properties.FirstOrDefault(bound => bound.Property == property);

    /// <summary>Whether a property stands there.</summary>
    public bool Has(Property property) => Find(property) is not null;

    /// <summary>All that stands there of a property that may repeat.</summary>
    public IEnumerable<BoundProperty> All(Property property) => properties.Where(bound => bound.Property == property);
}
