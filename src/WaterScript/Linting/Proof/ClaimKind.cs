using System.Collections.Immutable;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Linting.Proof;

/// <summary>What it is that two passes must not have at once.</summary>
internal abstract class ClaimKind
{
    /// <summary>A zone, from the start of a run to its end.</summary>
    public static ClaimKind OfZones { get; } = new ZoneClaims();

    /// <summary>The whole site, from the first run of a pass to the end of its last.</summary>
    public static ClaimKind OfPasses { get; } = new PassClaims(_ => 0);

    /// <summary>A controller of which it is not said that schedules may overlap, from the first run of a pass on it to the end of its last there.</summary>
    public static ClaimKind OfControllers(Site site) =>
        new PassClaims(zone => site.Zones[zone].Controller is { SchedulesMayOverlap: not true } controller ? controller.Index : null);

    /// <summary>What one pass claims, in seconds from its start.</summary>
    public abstract IEnumerable<(int What, long From, long To)> Of(PassPlan plan);

    /// <summary>What some runs claim.</summary>
    public abstract IEnumerable<Claim> Of(ImmutableArray<Run> runs);

    private sealed class ZoneClaims : ClaimKind
    {
        public override IEnumerable<(int What, long From, long To)> Of(PassPlan plan) =>
            plan.Runs.Select(run => (run.Zone, run.Offset, run.Offset + run.Seconds));

        public override IEnumerable<Claim> Of(ImmutableArray<Run> runs) => runs.Select(run => new Claim(run.Zone, run, run.Start, run.End));
    }

    /// <param name="whatOf">What a run of a zone claims; null for nothing.</param>
    private sealed class PassClaims(Func<int, int?> whatOf) : ClaimKind
    {
        public override IEnumerable<(int What, long From, long To)> Of(PassPlan plan) =>
            from run in plan.Runs
            let what = whatOf(run.Zone)
            where what is not null
            group run by what.Value into runs
            select (runs.Key, runs.Min(run => run.Offset), runs.Max(run => run.Offset + run.Seconds));

        public override IEnumerable<Claim> Of(ImmutableArray<Run> runs) =>
            from run in runs
            let what = whatOf(run.Zone)
            where what is not null
            group run by (What: what.Value, run.Schedule, run.Day, run.StartNumber, run.Pass) into pass
            select new Claim(pass.Key.What, pass.First(), pass.Min(run => run.Start), pass.Max(run => run.End));
    }
}

/// <summary>What a run, or the pass of a run, claims.</summary>
/// <param name="What">Index of a zone or a controller.</param>
/// <param name="Run">The run, or the first of the pass.</param>
/// <param name="From">First second, in Unix seconds.</param>
/// <param name="To">The second after the last.</param>
internal readonly record struct Claim(int What, Run Run, long From, long To);
