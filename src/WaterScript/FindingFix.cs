using System.Collections.Immutable;
using WaterScript.Diagnostics;

namespace WaterScript;

/// <summary>A change of the sources that fixes a finding.</summary>
public sealed class FindingFix
{
    internal FindingFix(Fix fix)
    {
        Title = fix.Title;
        IsSafe = fix.IsSafe;
        Edits = [.. fix.Edits.Select(edit => new SourceEdit(edit))];
    }

    /// <summary>What it does, as an imperative: <c>write 18 min</c>.</summary>
    public string Title { get; }

    /// <summary>Whether it leaves the watering as it was meant, so that it may be made without asking anybody.</summary>
    public bool IsSafe { get; }

    /// <summary>Replacements that do not overlap, in order of place; at least one.</summary>
    public ImmutableArray<SourceEdit> Edits { get; }
}

/// <summary>One replacement in a file.</summary>
public sealed class SourceEdit
{
    internal SourceEdit(TextEdit edit)
    {
        Place = new SourcePlace(edit.Location);
        Replacement = edit.Replacement;
    }

    /// <summary>What goes; of length 0 for an insertion.</summary>
    public SourcePlace Place { get; }

    /// <summary>What comes in its place; may be empty.</summary>
    public string Replacement { get; }
}
