using WaterScript.Text;

namespace WaterScript.Syntax;

/// <summary>Collects the parts of a list of zones.</summary>
internal sealed class ZoneListBuilder
{
    private readonly List<List<NameNode>> _parts = [];

    /// <summary>Begins a part, after a comma.</summary>
    public void Add(NameNode? name)
    {
        if (name is not null) _parts.Add([name]);
    }

    /// <summary>Goes on with a part, after a plus.</summary>
    public void Join(NameNode? name)
    {
        if (name is not null) _parts[^1].Add(name);
    }

    public ZoneListNode ToNode(TextSpan span) => new(span, [.. _parts.Select(ToNode)]);

    private static ZonePartNode ToNode(List<NameNode> names) =>
        new(TextSpan.Cover(names[0].Span, names[^1].Span), [.. names]);
}
