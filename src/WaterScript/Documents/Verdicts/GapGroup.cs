using System.Collections.Immutable;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Documents.Verdicts;

/// <summary>All that could not be checked of one concern.</summary>
/// <param name="Concern">The concern.</param>
/// <param name="Things">The parts of the site, each once.</param>
/// <param name="Remedies">What to do, each once.</param>
/// <param name="IsWhole">Whether nothing of the site could be checked for it.</param>
internal sealed record GapGroup(Concern Concern, ImmutableArray<Thing> Things, ImmutableArray<string> Remedies, bool IsWhole)
{
    private const int MostStatements = 2;
    private const string Add = "add ";

    /// <summary>What a site was not checked for, the most dangerous first.</summary>
    public static ImmutableArray<GapGroup> Of(Site site, ImmutableArray<Gap> gaps) =>
    [
        .. gaps.GroupBy(gap => gap.Concern).OrderBy(group => group.Key).Select(group => new GapGroup(
            group.Key,
            [.. group.SelectMany(gap => gap.Of).Distinct()],
            [.. group.Select(gap => gap.Remedy).Distinct()],
            group.Any(gap => gap.Of.IsEmpty) || IsAll(site, [.. group.SelectMany(gap => gap.Of).Distinct()]))),
    ];

    /// <summary><c>wires of 10 zones (add wire)</c></summary>
    public string Words => $"{WordOf(Concern)}{(IsWhole ? "" : $" of {Counted}")} ({RemedyOf(Remedies)})";

    /// <summary>The word for a concern.</summary>
    public static string WordOf(Concern concern) => concern switch
    {
        Concern.Flow => "flow",
        Concern.Tank => "tank",
        Concern.Power => "power",
        Concern.PumpStarts => "pump starts",
        Concern.Wires => "wires",
        Concern.Restrictions => "restrictions",
        Concern.Runoff => "runoff",
        Concern.WaterNeed => "water need",
        Concern.Roots => "roots",
        Concern.HandOvers => "hand-overs",
        _ => "time of day",
    };

    /// <summary>Several remedies in a few words: <c>add soil, plants</c>.</summary>
    public static string RemedyOf(IEnumerable<string> remedies)
    {
        string[] all = [.. remedies];
        string[] statements = [.. all.Where(remedy => remedy.StartsWith(Add, StringComparison.Ordinal)).Select(remedy => remedy[Add.Length..])];
        if (statements.Length == 0) return all[0];
        return Add + string.Join(", ", statements.Take(MostStatements)) + (statements.Length > MostStatements ? ", …" : "");
    }

    private string Counted => string.Join(
        " and ", Things.CountBy(thing => thing.Kind).Select(kind => Phrases.Count(kind.Value, kind.Key, Gap.Plural(kind.Key))));

    /// <summary>Whether some parts are all of their kind that a site has.</summary>
    private static bool IsAll(Site site, ImmutableArray<Thing> things)
    {
        var kinds = things.CountBy(thing => thing.Kind).ToDictionary();
        return kinds.Count == 1 && kinds.Single() switch
        {
            { Key: "zone", Value: var zones } => zones == site.Zones.Count(zone => !zone.IsSpare),
            { Key: "supply", Value: var supplies } => supplies == site.Supplies.Length,
            { Key: "controller", Value: var controllers } => controllers == site.Controllers.Length,
            _ => false,
        };
    }
}
