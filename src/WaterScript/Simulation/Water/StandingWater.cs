using WaterScript.Agronomy;
using WaterScript.Timetables;

namespace WaterScript.Simulation.Water;

/// <summary>The water that stands on the ground of each zone: what falls and is not taken in stays, until more stands than may.</summary>
/// <param name="grounds">The ground of each zone, by its index; null where it is not known.</param>
internal sealed class StandingWater(Infiltration?[] grounds)
{
    private const decimal SecondsInHour = 3600;

    private readonly (long Until, decimal Depth)[] _standing = new (long, decimal)[grounds.Length];

    /// <summary>
    /// Adds a run, in order of their starts. Of a run that another of its zone covers in part only the rest counts, since a valve is open once.
    /// </summary>
    /// <returns>What stood before and what runs off, in mm; null where the ground is not known or all of the run has been counted.</returns>
    public (decimal Before, decimal RunOff)? After(in Run run)
    {
        var (until, depth) = _standing[run.Zone];
        var start = Math.Max(run.Start, until);
        if (run.End <= start || grounds[run.Zone] is not { } ground) return null;
        var before = Math.Max(0, depth - (ground.Intake * (start - until) / SecondsInHour));
        var stands = before + ((ground.Rate - ground.Intake) * (run.End - start) / SecondsInHour);
        _standing[run.Zone] = (run.End, Math.Min(stands, ground.Ponds));
        return (before, Math.Max(0, stands - ground.Ponds));
    }
}
