using System.Collections.Immutable;
using WaterScript.Simulation;

namespace WaterScript.Linting.Engine;

/// <summary>Steps that together ask for too much, and when they do.</summary>
internal sealed class Overload
{
    /// <summary>Whose limit it is: index of a supply, a controller, ….</summary>
    public required int Owner { get; init; }

    /// <summary>The steps, in order of their schedules in the file; one, or one of each schedule.</summary>
    public required ImmutableArray<StepPlace> Places { get; init; }

    /// <summary>When they do; stretches that touch are one time, and the worst is the greatest sum.</summary>
    public OccurrenceCounter OccurrenceCounter { get; } = new();

    /// <summary>How often.</summary>
    public long Times => OccurrenceCounter.Times;

    /// <summary>When the sum is greatest.</summary>
    public long WorstAt { get; private set; }

    /// <summary>The greatest sum.</summary>
    public decimal Worst => OccurrenceCounter.Worst;

    /// <summary>Whether the sum is the same each time.</summary>
    public bool IsSteady { get; private set; } = true;

    /// <summary>What makes it up.</summary>
    public ImmutableArray<Contribution> Contributions { get; private set; } = [];

    /// <summary>The longest that it lasts, in seconds.</summary>
    public long Longest { get; private set; }

    /// <summary>What two equal sums may differ by: the parts are added in the order in which they open.</summary>
    private const decimal Rounding = 0.000001m;

    private long _ended = long.MinValue;

    /// <summary>Takes in a stretch.</summary>
    /// <param name="from">First second.</param>
    /// <param name="to">The second after the last, or <paramref name="from"/> for what happens at an instant.</param>
    /// <param name="sum">The sum of the parts.</param>
    /// <param name="contributions">What is open.</param>
    /// <param name="context">Knows the clock.</param>
    public void Add(long from, long to, decimal sum, IReadOnlyList<Contribution> contributions, SimulationContext context)
    {
        if (from > _ended) OccurrenceCounter.Add(from, context);
        _ended = to;
        Longest = Math.Max(Longest, to - OccurrenceCounter.Last);
        if (Contributions.Length > 0 && Math.Abs(sum - Worst) > Rounding) IsSteady = false;
        if (OccurrenceCounter.Reach(sum)) (WorstAt, Contributions) = (from, [.. contributions]);
    }
}
