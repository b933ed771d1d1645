using WaterScript.Model;

namespace WaterScript.Simulation.Water;

/// <summary>A stretch of time in which the same zones draw from a supply.</summary>
/// <param name="Supply">The supply.</param>
/// <param name="From">First second, in Unix seconds.</param>
/// <param name="To">The second after the last.</param>
/// <param name="Flow">What they draw together, in L/min; zones without a known flow are left out of it.</param>
/// <param name="IsWhole">Whether the flow of all of them is known.</param>
/// <param name="Contributions">The zones, with their flows; good only while the stretch is looked at.</param>
internal readonly record struct DemandInterval(Supply Supply, long From, long To, decimal Flow, bool IsWhole, IReadOnlyList<Contribution> Contributions)
{
    /// <summary>What of the water of zones, also of those that draw elsewhere, runs back to its tank meanwhile, in L/min.</summary>
    public decimal Returned { get; init; }

    /// <summary>How long it is, in seconds.</summary>
    public long Seconds => To - From;

    /// <summary>Water drawn, in litres.</summary>
    public decimal Litres => Flow * Seconds / 60;
}
