using System.Collections.Immutable;

namespace WaterScript.Answers.Diff.Folders;

/// <summary>What changes in the sites of a folder.</summary>
/// <param name="Sites">Those of which a file is another, and those that could not be compared, in order of their paths.</param>
/// <param name="Untouched">How many sites have all files as they were.</param>
internal sealed record FolderChanges(ImmutableArray<SiteChanges> Sites, int Untouched)
{
    /// <summary>What was compared, where that is a file without a site: a sentence; empty else.</summary>
    public string Note { get; init; } = "";

    /// <summary>What is written otherwise in a file that no site includes.</summary>
    public ImmutableArray<string> Written { get; init; } = [];
}

/// <summary>What changes in a site of a folder.</summary>
/// <param name="Path">Its root file, from the folder.</param>
/// <param name="OldPath">Where it was; null where that is the same.</param>
/// <param name="Changes">What changes; null where the two could not be compared.</param>
/// <param name="Why">Why not, or what is to be said besides; empty for nothing.</param>
internal sealed record SiteChanges(string Path, string? OldPath, WateringChanges? Changes, string Why = "")
{
    /// <summary>What happened, in a word.</summary>
    public string Word => Changes switch
    {
        null => "unreadable",
        { Sides: DiffSides.New } => "added",
        { Sides: DiffSides.Gone } => "removed",
        { IsAnythingChanged: true } or { InPart: not null } => "changed",
        _ => "same",
    };
}
