namespace WaterScript.Documents.Charts.Drawing;

/// <summary>The lane of a zone while it is drawn.</summary>
/// <param name="Zone">Index of the zone.</param>
/// <param name="Y">Its upper edge.</param>
/// <param name="Height">Its height.</param>
/// <param name="Middle">The middle of its bars.</param>
/// <param name="HasComb">Whether words stand over its bars.</param>
internal sealed record NightLane(int Zone, double Y, double Height, double Middle, bool HasComb)
{
    /// <summary>What is watered.</summary>
    public required List<NightRow> Rows { get; init; }

    /// <summary>What is not.</summary>
    public required List<NightRow> Held { get; init; }

    /// <summary>What is found.</summary>
    public required List<NightFinding> Findings { get; init; }

    /// <summary>Where there is no more room for labels.</summary>
    public List<(double From, double Until)> Taken { get; } = [];

    /// <summary>Labels that stand beside or in its bars.</summary>
    public List<LaneLabel> Labels { get; } = [];

    /// <summary>Lines between bars.</summary>
    public List<(double From, double Until, bool IsHeld)> Soaks { get; } = [];
}

/// <summary>A label in a lane.</summary>
/// <param name="X">Its left edge.</param>
/// <param name="Words">The text.</param>
/// <param name="Kind">Classes of the style.</param>
internal sealed record LaneLabel(double X, string Words, string Kind);

/// <summary>What one label speaks for: the runs of a zone in a pass, or passes that repeat.</summary>
/// <param name="Rows">By start.</param>
/// <param name="IsHeld">Whether they are not watered.</param>
/// <param name="First">The place of the first among all of the lane.</param>
internal sealed record LaneGroup(List<NightRow> Rows, bool IsHeld, int First)
{
    /// <summary>Whether they are passes that repeat.</summary>
    public bool IsComb => Rows[0].IsComb;
}
