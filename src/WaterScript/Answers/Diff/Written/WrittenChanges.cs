using System.Collections.Immutable;
using WaterScript.Text.Diffs;

namespace WaterScript.Answers.Diff.Written;

/// <summary>Finds what is written otherwise in two versions of a site.</summary>
internal static class WrittenChanges
{
    /// <summary>Pairs of lines that are compared word by word; of more, each goes with the next.</summary>
    private const int MostPairs = 250_000;

    /// <summary>What changes, in order of the new files, then what is gone in order of the old ones.</summary>
    /// <param name="old">What the old version says.</param>
    /// <param name="new">What the new one says.</param>
    /// <param name="names">Which things have another name.</param>
    public static ImmutableArray<WrittenChange> Between(ImmutableArray<WrittenThing> old, ImmutableArray<WrittenThing> @new, Renames names)
    {
        var before = old.ToDictionary(thing => (thing.Kind, names.Of(thing.Kind, thing.Name)));
        var changes = new List<WrittenChange>();
        foreach (var now in @new)
        {
            if (!before.Remove((now.Kind, now.Name), out var was))
            {
                if (now.Name.Length > 0) changes.Add(new WrittenChange(WrittenChangeKind.Added, now.Kind, now.Name, "", "", "", now.Place));
                else changes.AddRange(now.Lines.Select(line => Change(now, null, line)));
                continue;
            }

            if (was.Name != now.Name) changes.Add(new WrittenChange(WrittenChangeKind.Renamed, now.Kind, now.Name, "", was.Name, now.Name, now.Place));
            changes.AddRange(Lines(was, now, names));
        }

        foreach (var gone in old.Where(thing => before.ContainsKey((thing.Kind, names.Of(thing.Kind, thing.Name)))))
        {
            if (gone.Name.Length > 0) changes.Add(new WrittenChange(WrittenChangeKind.Removed, gone.Kind, gone.Name, "", "", "", gone.Place));
            else changes.AddRange(gone.Lines.Select(line => Change(gone, line, null)));
        }

        return [.. changes];
    }

    /// <summary>Whether two things say the same.</summary>
    public static bool AreSame(WrittenThing old, WrittenThing @new, Renames names) =>
        old.Lines.Length == @new.Lines.Length && !Lines(old, @new, names).Any();

    private static IEnumerable<WrittenChange> Lines(WrittenThing old, WrittenThing @new, Renames names)
    {
        if (!@new.IsOrdered) return Unordered(old, @new, old.Lines, @new.Lines, names);
        var (other, steps) = (old.Lines.ToLookup(line => line.What == WrittenSite.Step), @new.Lines.ToLookup(line => line.What == WrittenSite.Step));
        return Unordered(old, @new, [.. other[false]], [.. steps[false]], names).Concat(Ordered(old, @new, [.. other[true]], [.. steps[true]], names));
    }

    private static IEnumerable<WrittenChange> Unordered(
        WrittenThing oldThing, WrittenThing newThing, ImmutableArray<WrittenLine> old, ImmutableArray<WrittenLine> @new, Renames names)
    {
        var gone = Without(old.Select(line => (line, names.KeyOf(line))), @new.Select(KeyOfNew));
        var come = Without(@new.Select(line => (line, KeyOfNew(line))), old.Select(names.KeyOf));
        return Pairs(gone, come).Select(pair => Change(pair.New is null ? oldThing : newThing, pair.Old, pair.New));
    }

    private static List<WrittenLine> Without(IEnumerable<(WrittenLine Line, string Key)> lines, IEnumerable<string> others)
    {
        var left = others.CountBy(key => key).ToDictionary();
        return [.. lines.Where(line => !(left.GetValueOrDefault(line.Key) > 0 && left[line.Key]-- > 0)).Select(line => line.Line)];
    }

    private static IEnumerable<WrittenChange> Ordered(
        WrittenThing oldThing, WrittenThing newThing, ImmutableArray<WrittenLine> old, ImmutableArray<WrittenLine> @new, Renames names) =>
        LineChanges.Between([.. old.Select(names.KeyOf)], [.. @new.Select(KeyOfNew)]).SelectMany(change =>
            Pairs(
                [.. old.Skip(change.OldStart).Take(change.OldCount)],
                [.. @new.Skip(change.NewStart).Take(change.NewCount)])
            .Select(pair => Change(pair.New is null ? oldThing with { Name = newThing.Name } : newThing, pair.Old, pair.New)));

    /// <summary>Lines that speak of the same are one that changed; of steps those that begin alike.</summary>
    private static IEnumerable<(WrittenLine? Old, WrittenLine? New)> Pairs(List<WrittenLine> gone, List<WrittenLine> come)
    {
        var isMany = (long)gone.Count * come.Count > MostPairs;
        foreach (var now in come)
        {
            var was = isMany ? gone.FirstOrDefault() : gone.Where(line => IsAlike(line, now)).MaxBy(line => Alike(line.Text, now.Text));
            if (was is not null) gone.Remove(was);
            yield return (was, now);
        }

        foreach (var was in gone) yield return (was, null);
    }

    private static bool IsAlike(WrittenLine old, WrittenLine @new) =>
        old.What == @new.What && (old.What != WrittenSite.Step || old.Text.Split(' ')[0] == @new.Text.Split(' ')[0]);

    /// <summary>How many words two texts have in common at their beginning and end.</summary>
    private static int Alike(string old, string @new)
    {
        var (before, after) = (old.Split(' '), @new.Split(' '));
        var most = Math.Min(before.Length, after.Length);
        var start = 0;
        while (start < most && before[start] == after[start]) start++;
        var end = 0;
        while (end < most - start && before[^(end + 1)] == after[^(end + 1)]) end++;
        return start + end;
    }

    private static string KeyOfNew(WrittenLine line) => Renames.KeyOf(line, null);

    private static WrittenChange Change(WrittenThing thing, WrittenLine? old, WrittenLine? @new)
    {
        var kind = old is null ? WrittenChangeKind.Added : @new is null ? WrittenChangeKind.Removed : WrittenChangeKind.Changed;
        var line = (@new ?? old)!;
        return new WrittenChange(kind, thing.Kind, thing.Name, line.What, old?.Text ?? "", @new?.Text ?? "", line.Place)
        {
            OldPlace = old?.Place,
            Times = line.Times,
        };
    }
}
