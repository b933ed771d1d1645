using WaterScript.Text;

namespace WaterScript.Answers.Diff.Written;

/// <summary>What happened to what is written.</summary>
internal enum WrittenChangeKind
{
    /// <summary>It is new.</summary>
    Added,

    /// <summary>It is gone.</summary>
    Removed,

    /// <summary>It has another name.</summary>
    Renamed,

    /// <summary>It says something else.</summary>
    Changed,
}

/// <summary>Something that is written otherwise: what causes what changes in the garden.</summary>
/// <param name="Kind">What happened.</param>
/// <param name="Thing">The kind of thing that it is written of: <c>zone</c>.</param>
/// <param name="Name">Its name, the new one where there are two; empty where it has none.</param>
/// <param name="What">The property or the kind of statement; empty where it is the thing itself.</param>
/// <param name="Old">As it was written; empty where there was nothing, and for a thing as a whole its old name.</param>
/// <param name="New">As it is written; empty where there is nothing.</param>
/// <param name="Place">Where: in the new version, or in the old one where it is gone.</param>
internal sealed record WrittenChange(WrittenChangeKind Kind, string Thing, string Name, string What, string Old, string New, Location Place)
{
    /// <summary>Where it was, in the old version; null where there was nothing.</summary>
    public Location? OldPlace { get; init; }

    /// <summary>How often the steps around it are done.</summary>
    public long Times { get; init; } = 1;

    /// <summary>Whether it is a step of a schedule or a sequence.</summary>
    public bool IsStep => What == WrittenSite.Step;
}
