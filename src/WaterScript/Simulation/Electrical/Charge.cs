using System.Numerics;

namespace WaterScript.Simulation.Electrical;

/// <summary>
/// What a capacitor holds, with what pulses have made of it so far: valves that take turns bring it to the same few charges over and over, and a fraction
/// of large numbers takes longer to calculate than to remember.
/// </summary>
/// <param name="held">The charge.</param>
internal sealed class Charge(SquareVolts held)
{
    private readonly Dictionary<(decimal? Idle, PulseValve Valve), PulseOutcome> _pulses = [];
    private BigInteger? _waitTicks;

    /// <summary>The charge.</summary>
    public SquareVolts Held { get; } = held;

    /// <summary>The voltage.</summary>
    public double Volts { get; } = held.Volts;

    /// <summary>What is known of a pulse; null where none such has been given.</summary>
    /// <param name="idle">Seconds of recharge before it, no more than make a difference; null for the first.</param>
    /// <param name="valve">The valve that it goes to.</param>
    public PulseOutcome? Find(decimal? idle, PulseValve valve) => _pulses.GetValueOrDefault((idle, valve));

    /// <summary>Remembers a pulse.</summary>
    public PulseOutcome Keep(decimal? idle, PulseValve valve, PulseOutcome outcome) => _pulses[(idle, valve)] = outcome;

    /// <summary>The time until it is full, in ticks rounded up: calculated once.</summary>
    public BigInteger WaitTicks(Func<SquareVolts, BigInteger> calculate) => _waitTicks ??= calculate(Held);
}

/// <summary>What a pulse gives and leaves.</summary>
/// <param name="Given">The pulse, but for the time before it.</param>
/// <param name="After">The charge that it leaves.</param>
internal sealed record PulseOutcome(PulseGiven Given, Charge After);
