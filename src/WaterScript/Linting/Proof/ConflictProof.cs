using System.Collections.Immutable;
using NodaTime;

namespace WaterScript.Linting.Proof;

/// <summary>For which schedules it is decided, beyond the dates that are looked at, whether they ever meet.</summary>
/// <param name="Until">First date that is not decided.</param>
/// <param name="Moving">Names of the schedules for which it is not, because their times move with the sun or another schedule.</param>
/// <param name="IsWhole">Whether it is decided for all pairs of the others.</param>
internal sealed record ConflictProof(LocalDate Until, ImmutableArray<string> Moving, bool IsWhole)
{
    /// <summary>How many pairs of the others could meet at all, and of how many of them it is not decided; null where there are too many to count.</summary>
    public (int All, int NotProved)? Pairs { get; init; }

    /// <summary>Whether arithmetic decides it for ever, for each of the others, on a clock that is never changed again.</summary>
    public bool IsForEver { get; init; }
}
