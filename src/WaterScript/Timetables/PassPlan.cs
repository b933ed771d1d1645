using System.Collections.Immutable;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Timetables;

/// <summary>What one pass of a schedule does, in seconds from its start.</summary>
/// <param name="Runs">In order of <see cref="PlannedRun.Offset"/>, then <see cref="PlannedRun.Rank"/>.</param>
/// <param name="LeftOut">Waterings that scale and trim bring to nothing, or under the shortest that is worth it.</param>
/// <param name="Seconds">From its start to the end of its last step, pauses included.</param>
internal sealed record PassPlan(ImmutableArray<PlannedRun> Runs, ImmutableArray<LeftOut> LeftOut, long Seconds);

/// <summary>A run within a pass.</summary>
/// <param name="Offset">Seconds from the start of the pass.</param>
/// <param name="Seconds">How long it lasts.</param>
/// <param name="Overlap">Seconds that its valve stays open after the end, while the next one on its supply opens.</param>
/// <param name="Zone">Index among the site's zones.</param>
/// <param name="Step">Number among the schedule's <see cref="StepPaths"/>.</param>
/// <param name="Rank">Orders runs that start together: by controller, output, zone, then name of the schedule.</param>
/// <param name="Injector">Index among the site's devices of the injector that doses; -1 for none.</param>
/// <param name="Soak">Seconds that the zone is to soak afterwards; 0 outside of a cycle.</param>
internal readonly record struct PlannedRun(long Offset, long Seconds, long Overlap, int Zone, int Step, long Rank, int Injector, long Soak);

/// <summary>A watering that scale and trim leave out.</summary>
/// <param name="Zone">The zone.</param>
/// <param name="Origin">The step.</param>
/// <param name="Written">Seconds as written, or as the written amount takes.</param>
/// <param name="Scaled">Seconds that were left of it.</param>
internal sealed record LeftOut(Zone Zone, Location Origin, long Written, long Scaled);
