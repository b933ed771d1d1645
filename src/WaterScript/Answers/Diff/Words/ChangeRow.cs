using System.Collections.Immutable;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff.Words;

/// <summary>What changes of one thing, or of several that change alike.</summary>
/// <param name="Label">What it is.</param>
/// <param name="Parts">What changes of it.</param>
internal sealed record ChangeRow(string Label, ImmutableArray<ChangePart> Parts)
{
    /// <summary>Where the first of what changes stands; null where nothing of it has a place.</summary>
    public Location? Place => Parts.Select(part => part.Place).FirstOrDefault(place => place is not null);

    /// <summary>Where the thing itself stands; null where that is where it changes.</summary>
    public Location? Anchor { get; init; }

    /// <summary>Where it is in the order of all.</summary>
    public Location Stands => Anchor ?? Place ?? default;

    /// <summary>All of it, part by part; a place that several have one after the other stands once, behind the last of them.</summary>
    public IEnumerable<string> Texts => Parts.Select((part, index) =>
    {
        var isSaidNext = index + 1 < Parts.Length && Parts[index + 1].Where == part.Where && part.Effect.Length == 0;
        return part.Text + (isSaidNext || part.Where.Length == 0 ? "" : ", " + part.Where) + part.Effect;
    });
}

/// <summary>One thing that changes.</summary>
/// <param name="What">What it is, for a table; may be empty.</param>
/// <param name="Old">As it was, for a table.</param>
/// <param name="New">As it is, for a table.</param>
/// <param name="Text">All of it in words.</param>
/// <param name="Place">Where it is written; null where it follows from something else.</param>
internal sealed record ChangePart(string What, string Old, string New, string Text, Location? Place)
{
    /// <summary>The place in words; empty where there is none.</summary>
    public string Where { get; init; } = Place is { } place ? SiteWords.Place(place) : "";

    /// <summary>What it does, behind the place; may be empty.</summary>
    public string Effect { get; init; } = "";
}
