using System.Collections.Immutable;

namespace WaterScript.Answers.Audit;

/// <summary>How the columns of a log are called: by its own names, or by those that are commonly met.</summary>
internal sealed class LogColumns
{
    private static readonly ImmutableDictionary<string, ImmutableArray<string>> Usual = ImmutableDictionary.CreateRange(StringComparer.Ordinal,
    [
        Entry("time", "time", "t", "timestamp", "when", "at"),
        Entry("from", "from", "start", "on"),
        Entry("to", "to", "end", "off"),
        Entry("zone", "zone", "valve"),
        Entry("output", "output", "channel", "relay"),
        Entry("controller", "controller"),
        Entry("do", "do", "event", "state", "action"),
        Entry("why", "why", "reason", "note", "source"),
        Entry("number", "number", "seq", "row"),
        Entry("litres", "litres", "liters", "volume_l"),
        Entry("meter", "meter", "meter_l"),
        Entry("list", "list", "sha256", "hash"),
    ]);

    private readonly ImmutableDictionary<string, string> _own;

    private LogColumns(ImmutableDictionary<string, string> own) => _own = own;

    /// <summary>The names that are commonly met.</summary>
    public static LogColumns Default { get; } = new(ImmutableDictionary<string, string>.Empty);

    /// <summary>What can be said of a column.</summary>
    public static IEnumerable<string> Known => Usual.Keys.Order(StringComparer.Ordinal);

    /// <summary>The same with another name for a column; null where there is no such column.</summary>
    /// <param name="column">One of <see cref="Known"/>.</param>
    /// <param name="name">How the log calls it.</param>
    public LogColumns? With(string column, string name) => Usual.ContainsKey(column) ? new(_own.SetItem(column, name)) : null;

    /// <summary>The place of each column in a header, where it is there.</summary>
    internal Dictionary<string, int> PlacesIn(IReadOnlyList<string> header)
    {
        var places = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var (column, usual) in Usual)
        {
            ImmutableArray<string> names = _own.TryGetValue(column, out var own) ? [own] : usual;
            var place = names.Select(name => IndexOf(header, name)).FirstOrDefault(index => index >= 0, -1);
            if (place >= 0) places[column] = place;
        }

        return places;
    }

    private static int IndexOf(IReadOnlyList<string> header, string name)
    {
        for (var index = 0; index < header.Count; index++)
        {
            if (string.Equals(header[index].Trim(), name, StringComparison.OrdinalIgnoreCase)) return index;
        }

        return -1;
    }

    private static KeyValuePair<string, ImmutableArray<string>> Entry(string column, params ImmutableArray<string> names) => new(column, names);
}
