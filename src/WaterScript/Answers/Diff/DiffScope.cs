namespace WaterScript.Answers.Diff;

/// <summary>What of a site is compared.</summary>
internal enum DiffScope
{
    /// <summary>All of it.</summary>
    All,

    /// <summary>What is watered.</summary>
    Water,

    /// <summary>What devices do.</summary>
    Devices,

    /// <summary>What is found.</summary>
    Findings,
}

/// <summary>Whether there is anything to compare with.</summary>
internal enum DiffSides
{
    /// <summary>There are two versions.</summary>
    Both,

    /// <summary>There was no such site before.</summary>
    New,

    /// <summary>There is no such site any more.</summary>
    Gone,

    /// <summary>The old version has errors, so that all of the new one is shown as new.</summary>
    OldUnreadable,
}
