using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Linting.Proof;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Linting.Engine;

/// <summary>What the linter found, and what it looked at.</summary>
/// <param name="Horizon">The dates that were looked at.</param>
/// <param name="Findings">What counts, in order of place within each file.</param>
/// <param name="Accepted">What the user accepts, in the same order.</param>
/// <param name="NotChecked">What could not be judged and why.</param>
internal sealed record LintReport(
    Horizon Horizon, ImmutableArray<Finding> Findings, ImmutableArray<AcceptedFinding> Accepted, ImmutableArray<Gap> NotChecked)
{
    /// <summary>What is decided beyond those dates; null where nothing is.</summary>
    public ConflictProof? ConflictProof { get; init; }

    /// <summary>How many collisions were found, also those that are accepted, or too many to be shown.</summary>
    public int Collisions { get; init; }

    /// <summary>Whether the dates end before those that were asked for, at the limit of work; a finding says so too.</summary>
    public bool IsCut { get; init; }

    /// <summary>How many runs there were.</summary>
    public long Runs { get; init; }

    /// <summary>The work that it took, in units of about ten nanoseconds.</summary>
    public long Work { get; init; }
}

/// <summary>A finding that the user accepts.</summary>
/// <param name="Finding">What was found.</param>
/// <param name="Acceptance">The line that accepts it, with its reason.</param>
internal sealed record AcceptedFinding(Finding Finding, Acceptance Acceptance);
