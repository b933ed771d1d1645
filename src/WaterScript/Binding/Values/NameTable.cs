using System.Diagnostics.CodeAnalysis;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding.Values;

/// <summary>Things of one kind by name, and which of them are used.</summary>
/// <param name="kind">What they are, in a word.</param>
/// <param name="scope">Where findings go.</param>
internal sealed class NameTable<T>(string kind, Scope scope)
    where T : class
{
    private readonly Dictionary<string, T> _things = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Location> _origins = new(StringComparer.Ordinal);
    private readonly HashSet<string> _used = new(StringComparer.Ordinal);

    /// <summary>The things, in the order in which they were added.</summary>
    public IReadOnlyCollection<T> Things => _things.Values;

    /// <summary>The names.</summary>
    public IReadOnlyCollection<string> Names => _things.Keys;

    /// <summary>Names that nothing has used, and where they are given.</summary>
    public IEnumerable<(string Name, Location Origin)> Unused => _origins.Where(entry => !_used.Contains(entry.Key)).Select(entry => (entry.Key, entry.Value));

    /// <summary>Adds a thing.</summary>
    public void Add(string name, Location origin, T thing)
    {
        _things[name] = thing;
        _origins[name] = origin;
    }

    /// <summary>The thing of a name; null, and reported with the nearest name, when there is none.</summary>
    public T? Use(NameNode? name, SourceText source)
    {
        if (name is null) return null;
        if (TryUse(name.Text, out var thing)) return thing;
        scope.ReportUnknown(new Location(source, name.Span), $"no {kind} is called \"{name.Text}\"", name.Text, Names);
        return null;
    }

    /// <summary>The thing of a name, without counting that as a use; null when there is none.</summary>
    public T? Find(string name) => _things.GetValueOrDefault(name);

    /// <summary>The thing of a name, if there is one; that counts as a use.</summary>
    public bool TryUse(string name, [NotNullWhen(true)] out T? thing)
    {
        if (!_things.TryGetValue(name, out thing)) return false;
        _used.Add(name);
        return true;
    }
}
