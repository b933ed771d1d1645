using System.Collections.Immutable;
using NodaTime;

namespace WaterScript.Linting.Proof;

/// <summary>For which schedules it is decided, beyond the dates that are looked at, whether they ever meet.</summary>
/// <param name="Until">First date that is not decided.</param>
/// <param name="Moving">Names of the schedules for which it is not, because their times move with the sun or another schedule.</param>
/// <param name="IsWhole">Whether it is decided for all pairs of the others.</param>
internal sealed record ConflictProof(LocalDate Until, ImmutableArray<string> Moving, bool IsWhole);
