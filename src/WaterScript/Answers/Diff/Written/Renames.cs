using System.Collections.Immutable;
using WaterScript.Model;

namespace WaterScript.Answers.Diff.Written;

/// <summary>What has another name in the new version, recognised by what it is.</summary>
internal sealed class Renames
{
    private const string Site = "site";
    private const string Zone = "zone";

    /// <summary>In the order in which what one is may depend on what another is called.</summary>
    private static readonly string[] Kinds =
    [
        "let", "tariff", "supply", "controller", "valve", "soil", "plants", "scale", Zone, "group", WrittenSite.Sequence, "pump", "master", "injector",
        WrittenSite.Schedule, "restriction",
    ];

    private readonly Dictionary<(string Kind, string Old), string> _names = [];
    private readonly Dictionary<string, string> _words = new(StringComparer.Ordinal);

    private Renames()
    {
    }

    /// <summary>Nothing has.</summary>
    public static Renames None => new();

    /// <summary>Whether nothing has.</summary>
    public bool IsEmpty => _words.Count == 0;

    /// <summary>Old and new names, by kind.</summary>
    public IEnumerable<(string Kind, string Old, string New)> All =>
        _names.Where(name => name.Key.Kind != Site).Select(name => (name.Key.Kind, name.Key.Old, name.Value));

    /// <summary>Finds what has.</summary>
    /// <param name="old">The old site.</param>
    /// <param name="oldThings">What its files say.</param>
    /// <param name="new">The new one.</param>
    /// <param name="newThings">What its files say.</param>
    public static Renames Of(Site old, ImmutableArray<WrittenThing> oldThings, Site @new, ImmutableArray<WrittenThing> newThings)
    {
        ArgumentNullException.ThrowIfNull(old);
        ArgumentNullException.ThrowIfNull(@new);
        var renames = new Renames();
        renames._names[(Site, old.Name)] = @new.Name;
        foreach (var kind in Kinds)
        {
            if (kind == Zone) renames.MatchZones(old, @new);
            if (kind == WrittenSite.Schedule) renames.MatchSchedules(old, @new);
            else renames.MatchThings(Only(kind, oldThings, newThings), Only(kind, newThings, oldThings));
        }

        return renames;
    }

    /// <summary>What a thing of the old version is called in the new one.</summary>
    public string Of(string kind, string name) => _names.GetValueOrDefault((kind, name), name);

    /// <summary>What a zone of the old version is called in the new one.</summary>
    public string OfZone(string name) => Of(Zone, name);

    /// <summary>What a schedule of the old version is called in the new one.</summary>
    public string OfSchedule(string name) => Of(WrittenSite.Schedule, name);

    /// <summary>What a word of the old version is in the new one.</summary>
    public string OfWord(string word) => _words.GetValueOrDefault(word, word);

    /// <summary>
    /// One word for all names that a thing has had, whichever version says it: a text of either version is the same then, also where an old name is
    /// an everyday word that the new version says too.
    /// </summary>
    public string OfEither(string word)
    {
        for (var steps = 0; steps < _words.Count && _words.TryGetValue(word, out var next); steps++) word = next;

        // Names of two kinds may go round in a circle: its least stands for all of them, from wherever one comes.
        var least = word;
        for (var other = OfWord(word); other != word; other = _words[other])
        {
            if (StringComparer.Ordinal.Compare(other, least) < 0) least = other;
        }

        return least;
    }

    /// <summary>What a line of the old version says, in the names of the new one.</summary>
    public string KeyOf(WrittenLine line) => KeyOf(line, _words.Count == 0 ? null : OfWord);

    /// <summary>What a line says, whatever its layout.</summary>
    public static string KeyOf(WrittenLine line, Func<string, string>? nameOf)
    {
        ArgumentNullException.ThrowIfNull(line);
        return $"{line.What}|{line.Depth}|{WrittenText.KeyOf(line.Text, line.What == "label" ? null : nameOf)}";
    }

    private static List<WrittenThing> Only(string kind, ImmutableArray<WrittenThing> things, ImmutableArray<WrittenThing> others)
    {
        var there = others.Where(thing => thing.Kind == kind).Select(thing => thing.Name).ToHashSet(StringComparer.Ordinal);
        return [.. things.Where(thing => thing.Kind == kind && thing.Name.Length > 0 && !there.Contains(thing.Name))];
    }

    /// <summary>What says the same is the same, where only one of each does.</summary>
    private void MatchThings(List<WrittenThing> old, List<WrittenThing> @new)
    {
        old.RemoveAll(thing => _names.ContainsKey((thing.Kind, thing.Name)));
        @new.RemoveAll(thing => old.Count == 0 || _names.Any(name => name.Key.Kind == thing.Kind && name.Value == thing.Name));
        if (old.Count == 0 || @new.Count == 0) return;
        var before = old.ToLookup(thing => TextOf(thing, OfWord));
        foreach (var same in @new.GroupBy(thing => TextOf(thing, null)).ToList())
        {
            if (before[same.Key].ToList() is [var was] && same.ToList() is [var now] && now.Lines.Length > 0) Add(now.Kind, was.Name, now.Name);
        }
    }

    private static string TextOf(WrittenThing thing, Func<string, string>? nameOf)
    {
        var keys = thing.Lines.Select(line => KeyOf(line, nameOf));
        return string.Join('\n', thing.IsOrdered ? keys : keys.Order(StringComparer.Ordinal));
    }

    /// <summary>A zone is its valve: what is wired to the same output of the same controller.</summary>
    private void MatchZones(Site old, Site @new)
    {
        var (gone, come) = (Only(old.Zones, @new.Zones, zone => zone.Name), Only(@new.Zones, old.Zones, zone => zone.Name));
        foreach (var now in come.Where(zone => zone.Output > 0))
        {
            var same = gone.Where(zone => zone.Output == now.Output && Of("controller", zone.Controller!.Name) == now.Controller!.Name).Take(2).ToList();
            if (same is [var was] && come.Count(zone => zone.Output == now.Output && zone.Controller!.Name == now.Controller!.Name) == 1)
                Add(Zone, was.Name, now.Name);
        }
    }

    /// <summary>
    /// A schedule is what it waters: the same steps on the same days or at the same times, or on both another watering of the same zones.
    /// </summary>
    private void MatchSchedules(Site old, Site @new)
    {
        var gone = Only(old.Schedules, @new.Schedules, schedule => schedule.Name).ConvertAll(schedule => new ScheduleParts(schedule, OfWord));
        var come = Only(@new.Schedules, old.Schedules, schedule => schedule.Name).ConvertAll(schedule => new ScheduleParts(schedule, null));
        for (var likeness = ScheduleParts.MostAlike; likeness > 0; likeness--)
        {
            foreach (var now in come.ToList())
            {
                var same = gone.Where(was => was.Likeness(now) == likeness).Take(2).ToList();
                if (same is not [var only] || come.Count(other => only.Likeness(other) == likeness) > 1) continue;
                Add(WrittenSite.Schedule, only.Name, now.Name);
                gone.Remove(only);
                come.Remove(now);
            }
        }
    }

    private static List<T> Only<T>(ImmutableArray<T> all, ImmutableArray<T> others, Func<T, string> nameOf)
    {
        var there = others.Select(nameOf).ToHashSet(StringComparer.Ordinal);
        return [.. all.Where(one => !there.Contains(nameOf(one)))];
    }

    private void Add(string kind, string old, string @new)
    {
        _names[(kind, old)] = @new;
        _words.TryAdd(old, @new);
    }
}
