namespace WaterScript.Text.Diffs;

/// <summary>Lines of an old text that new ones stand in place of. Lines are counted from 0.</summary>
/// <param name="OldStart">The first old line that goes, or before which the new ones come.</param>
/// <param name="OldCount">How many go.</param>
/// <param name="NewStart">The first new line, or before which the old ones were.</param>
/// <param name="NewCount">How many come.</param>
internal readonly record struct LineChange(int OldStart, int OldCount, int NewStart, int NewCount)
{
    /// <summary>The old line after it.</summary>
    public int OldEnd => OldStart + OldCount;

    /// <summary>The new line after it.</summary>
    public int NewEnd => NewStart + NewCount;
}
