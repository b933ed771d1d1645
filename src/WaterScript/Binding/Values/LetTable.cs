using NodaTime;
using WaterScript.Quantities;
using WaterScript.Text;

namespace WaterScript.Binding.Values;

/// <summary>What the <c>let</c> statements of a site name.</summary>
internal sealed class LetTable
{
    private readonly Dictionary<string, Let> _lets = new(StringComparer.Ordinal);

    /// <summary>All names.</summary>
    public IReadOnlyCollection<string> Names => _lets.Keys;

    /// <summary>Names that nothing has asked for.</summary>
    public IEnumerable<Let> Unused => _lets.Values.Where(let => !let.IsUsed);

    /// <summary>The let of a name, which counts as a use of it; null when there is none.</summary>
    public Let? Use(string name)
    {
        if (!_lets.TryGetValue(name, out var let)) return null;
        let.IsUsed = true;
        return let;
    }

    /// <summary>The let of a name, without counting that as a use; null when there is none.</summary>
    public Let? Find(string name) => _lets.GetValueOrDefault(name);

    /// <summary>Adds a let.</summary>
    public void Add(Let let) => _lets.Add(let.Name, let);
}

/// <summary>A named quantity or date; neither where its value could not be read.</summary>
internal sealed class Let(string name, Location origin)
{
    public string Name { get; } = name;

    public Location Origin { get; } = origin;

    public Quantity? Quantity { get; set; }

    public LocalDate? Date { get; set; }

    public bool IsUsed { get; set; }
}
