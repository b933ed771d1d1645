using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Binding.Values;

/// <summary>The lists of days under names, which may name one another in any order. They are read when they are first asked for.</summary>
internal sealed class NamedDayTable
{
    private readonly Dictionary<string, Entry> _entries = new(StringComparer.Ordinal);
    private readonly List<string> _open = [];

    /// <summary>All names.</summary>
    public IReadOnlyCollection<string> Names => _entries.Keys;

    /// <summary>Names that nothing has asked for.</summary>
    public IEnumerable<(string Name, Location Origin)> Unused =>
        _entries.Where(entry => !entry.Value.IsUsed).Select(entry => (entry.Key, entry.Value.Origin));

    /// <summary>Adds a name.</summary>
    /// <param name="name">The name.</param>
    /// <param name="origin">Where it is given.</param>
    /// <param name="read">Reads the days behind it.</param>
    public void Add(string name, Location origin, Func<ImmutableArray<DaySet>> read) => _entries.Add(name, new Entry(origin, read));

    /// <summary>Whether there is such a name.</summary>
    public bool Contains(string name) => _entries.ContainsKey(name);

    /// <summary>Reads the days of a name that there is, so that what is wrong in them is found.</summary>
    public void Read(string name) => Read(name, _entries[name]);

    /// <summary>The days of a name that there is, which counts as a use of it; none where they would be made of themselves.</summary>
    /// <param name="name">The name.</param>
    /// <param name="circle">The names that are made of one another, where they go round.</param>
    /// <param name="isTooDeep">Whether too many names are made of one another.</param>
    public ImmutableArray<DaySet> Use(string name, out string? circle, out bool isTooDeep)
    {
        var entry = _entries[name];
        entry.IsUsed = true;
        circle = _open.Contains(name) ? string.Join(", ", _open.Skip(_open.IndexOf(name)).Append(name)) : null;
        isTooDeep = circle is null && _open.Count >= Limits.NameDepth;
        return circle is null && !isTooDeep ? Read(name, entry) : [];
    }

    private ImmutableArray<DaySet> Read(string name, Entry entry)
    {
        if (entry.Days is { } known) return known;
        _open.Add(name);
        var days = entry.Read();
        _open.RemoveAt(_open.Count - 1);
        entry.Days = days;
        return days;
    }

    private sealed class Entry(Location origin, Func<ImmutableArray<DaySet>> read)
    {
        public Location Origin { get; } = origin;

        public Func<ImmutableArray<DaySet>> Read { get; } = read;

        public ImmutableArray<DaySet>? Days { get; set; }

        public bool IsUsed { get; set; }
    }
}
