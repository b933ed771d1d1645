using System.Collections.Immutable;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>
/// Lists of zones. After <c>water</c> a comma means then and a plus together; in the places that take sets a comma means
/// and, and a group gives its zones without order.
/// </summary>
internal sealed class ZoneListBinder
{
    private const string All = "all";

    private readonly NameTable<Zone> _zones;
    private readonly Scope _scope;
    private readonly Dictionary<string, PlacedNode<GroupNode>> _nodes;
    private readonly NameTable<Group> _groups;
    private readonly List<string> _open = [];
    private readonly ImmutableArray<Zone> _inOrder;

    public ZoneListBinder(IEnumerable<PlacedNode<GroupNode>> groups, NameTable<Zone> zones, Scope scope)
    {
        _zones = zones;
        _scope = scope;
        _nodes = groups.ToDictionary(group => group.Node.Name.Text, StringComparer.Ordinal);
        _groups = new NameTable<Group>("group", scope);
        _inOrder = [.. zones.Things.Where(zone => zone is { IsSpare: false, Controller: not null })
            .OrderBy(zone => zone.Controller!.Index).ThenBy(zone => zone.Output).ThenBy(zone => zone.Index)];
        foreach (var name in _nodes.Keys) GroupOf(name);
    }

    private long _listed;
    private bool _areTooMany;

    /// <summary>Groups that nothing uses.</summary>
    public IEnumerable<(string Name, Location Origin)> UnusedGroups => _groups.Unused;

    /// <summary>Parts, one after the other, each of zones that are on together.</summary>
    public ImmutableArray<ZonePart> Parts(ZoneListNode list, SourceText source)
    {
        var parts = ImmutableArray.CreateBuilder<ZonePart>();
        foreach (var part in list.Parts)
        {
            var origin = new Location(source, part.Span);
            if (part.Names.Length == 1) AddAlone(part.Names[0], origin, parts);
            else AddTogether(part, origin, parts);
            if (parts.Count > Limits.RunsPerPass) ReportTooMany(origin, Limits.RunsPerPass, "a list");
            else if (_listed + parts.Count <= Limits.ZonesInLists) continue;
            else if (!_areTooMany) ReportTooMany(origin, Limits.ZonesInLists, "lists");
            return [];
        }

        _listed += parts.Count;
        return parts.DrainToImmutable();
    }

    /// <summary>All lists together are too long once: the lists after that are not counted any more.</summary>
    private void ReportTooMany(Location origin, int limit, string what)
    {
        _areTooMany |= limit == Limits.ZonesInLists;
        _scope.Report(ReadingRules.OverLimit, origin, $"{what} of more than {limit} zones", help: "Name fewer zones, or let the schedule repeat its passes.");
    }

    /// <summary>A set of zones: a plus is an error.</summary>
    public ImmutableArray<Zone> Set(ZoneListNode list, SourceText source)
    {
        foreach (var part in list.Parts.Where(part => part.Names.Length > 1))
            _scope.Report(ReadingRules.Contradiction, new Location(source, part.Span), "a plus does not belong here", "these zones are a set, not a watering",
                "Put commas between them.");
        return Set(list.Parts.SelectMany(part => part.Names), source);
    }

    /// <summary>A set of zones by their names and those of their groups, in order of the file.</summary>
    public ImmutableArray<Zone> Set(IEnumerable<NameNode> names, SourceText source)
    {
        var zones = names.SelectMany(name => Resolve(name, source)).SelectMany(part => part.Zones);
        return [.. zones.DistinctBy(zone => zone.Index).OrderBy(zone => zone.Index)];
    }

    private void AddAlone(NameNode name, Location origin, ImmutableArray<ZonePart>.Builder parts)
    {
        foreach (var part in Resolve(name, origin.Source)) parts.Add(part with { Origin = origin });
    }

    private void AddTogether(ZonePartNode node, Location origin, ImmutableArray<ZonePart>.Builder parts)
    {
        var zones = ImmutableArray.CreateBuilder<Zone>();
        foreach (var name in node.Names)
        {
            var resolved = Resolve(name, origin.Source);
            if (resolved.Length > 1)
            {
                _scope.Report(ReadingRules.Contradiction, new Location(origin.Source, name.Span), $"\"{name.Text}\" is a row, one zone after the other",
                    "cannot stand beside a plus", "Name the zones that are to be on together.");
                continue;
            }

            foreach (var zone in resolved.SelectMany(part => part.Zones))
            {
                if (!zones.Contains(zone)) zones.Add(zone);
                else _scope.Report(ReadingRules.Contradiction, new Location(origin.Source, name.Span), $"{zone.Name} twice at once",
                    help: "Name it once, or put a comma in place of the plus.");
            }
        }

        if (zones.Count > 0) parts.Add(new ZonePart(origin, zones.DrainToImmutable()));
    }

    private ImmutableArray<ZonePart> Resolve(NameNode name, SourceText source)
    {
        var origin = new Location(source, name.Span);
        if (name.Text == All) return [.. _inOrder.Select(zone => Alone(zone, origin))];
        if (_zones.TryUse(name.Text, out var zone)) return [Alone(zone, origin)];
        if (_open.Contains(name.Text))
        {
            _scope.Report(ReadingRules.Loop, origin,
                $"group \"{name.Text}\" holds itself: {string.Join(", ", _open.Skip(_open.IndexOf(name.Text)).Append(name.Text))}",
                help: "Name zones in place of the group.");
            return [];
        }

        if (_open.Count >= Limits.NameDepth)
        {
            _scope.Report(ReadingRules.OverLimit, origin, $"more than {Limits.NameDepth} groups hold one another", help: "Name zones in place of groups.");
            return [];
        }

        if (_nodes.ContainsKey(name.Text))
        {
            var group = GroupOf(name.Text);
            _groups.TryUse(name.Text, out _);
            return group.Parts;
        }

        _scope.ReportUnknown(origin, $"no zone is called \"{name.Text}\"", name.Text, _zones.Names, _nodes.Keys, [All]);
        return [];
    }

    private Group GroupOf(string name)
    {
        if (_groups.Find(name) is { } known) return known;
        var node = _nodes[name];
        _open.Add(name);
        var group = new Group(Parts(node.Node.Zones, node.Source));
        _open.RemoveAt(_open.Count - 1);
        _groups.Add(name, node.At(node.Node.Name.Span), group);
        return group;
    }

    private static ZonePart Alone(Zone zone, Location origin) => new(origin, [zone]);

    private sealed record Group(ImmutableArray<ZonePart> Parts);
}
