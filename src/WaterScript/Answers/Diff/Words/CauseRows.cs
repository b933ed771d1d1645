using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Answers.Diff.Written;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff.Words;

/// <summary>What is written otherwise, thing by thing; things of a kind that change alike are one row.</summary>
internal static class CauseRows
{
    private const int MostPlaces = 3;

    /// <summary>The rows, in order of the causes.</summary>
    /// <param name="causes">What is written otherwise.</param>
    /// <param name="starts">The starts that a longer pause may move.</param>
    public static IEnumerable<ChangeRow> Of(ImmutableArray<WrittenChange> causes, IReadOnlyCollection<Start> starts)
    {
        var things = causes.GroupBy(cause => (cause.Thing, cause.Name)).Select(thing => (thing.Key.Thing, thing.Key.Name, Changes: thing.ToList()));
        foreach (var alike in things.GroupBy(thing => (thing.Thing, Said: string.Join('\n', thing.Changes.Select(Key)))))
        {
            var all = alike.ToList();
            var label = Label(alike.Key.Thing, [.. all.Select(thing => thing.Name).Where(name => name.Length > 0)]);
            var parts = all[0].Changes.Select((change, index) => Part(change, [.. all.Select(thing => thing.Changes[index])], starts));
            yield return new ChangeRow(label, [.. parts]);
        }
    }

    /// <summary>Changes are alike where they say the same; of two that are renamed each says its own.</summary>
    private static string Key(WrittenChange change) => $"{change.Kind} {change.What} {change.Old} → {change.New}";

    private static string Label(string kind, List<string> names) => names.Count switch
    {
        0 => kind,
        1 => kind == "site" ? kind : $"{kind} {names[0]}",
        _ => $"{(kind.EndsWith('s') || kind.EndsWith('y') ? kind : kind + "s")} {Phrases.Names(names, most: 4)}",
    };

    private static ChangePart Part(WrittenChange change, List<WrittenChange> alike, IReadOnlyCollection<Start> starts)
    {
        var places = alike.Select(each => SiteWords.Place(each.Place)).Distinct().ToList();
        var where = string.Join(", ", places.Take(MostPlaces))
            + (places.Count > MostPlaces ? string.Create(CultureInfo.InvariantCulture, $" and {places.Count - MostPlaces} more lines") : "");
        var effect = change is { Thing: WrittenSite.Sequence, IsStep: true } && StepTurns.EffectOf(change, starts) is { Length: > 0 } moves ? $": {moves}" : "";
        return new ChangePart(change.IsStep ? "" : change.What, Without(change.What, change.Old), Without(change.What, change.New),
            ChangeWords.Of(change), change.Place)
        { Where = where, Effect = effect };
    }

    /// <summary>A property without its name, which a table says beside it.</summary>
    private static string Without(string what, string text) =>
        text.StartsWith(what + " ", StringComparison.Ordinal) ? text[(what.Length + 1)..] : text;
}
