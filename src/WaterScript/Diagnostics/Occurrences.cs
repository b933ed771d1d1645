using NodaTime;

namespace WaterScript.Diagnostics;

/// <summary>When something that a finding is about happens, by the clocks of the site.</summary>
/// <param name="First">The first time.</param>
/// <param name="Last">The last time; the first where it happens once.</param>
/// <param name="Times">How often; 1 or more.</param>
/// <param name="Days">On how many local dates; 1 or more.</param>
internal sealed record Occurrences(LocalDateTime First, LocalDateTime Last, long Times, long Days)
{
    /// <summary>Whether it is about dates, not about moments of them.</summary>
    public bool IsWholeDays { get; init; }

    /// <summary>Whether nothing shows that it ends: the last time lies as close to the end of the dates as times lie together.</summary>
    public bool IsStill { get; init; }

    /// <summary>What it comes to at worst, in a unit of its rule; 0 where it comes to nothing.</summary>
    public decimal Worst { get; init; }

    /// <summary>
    /// Times that are known, in order, in Unix seconds: the first and the last of each date. Empty where only <see cref="First"/> and
    /// <see cref="Last"/> are.
    /// </summary>
    public IEnumerable<long> Moments { get; init; } = [];

    /// <summary>What it was found in.</summary>
    public Basis Basis { get; init; }
}

/// <summary>What a finding about time rests on.</summary>
internal enum Basis
{
    /// <summary>The dates that were looked at.</summary>
    Horizon,

    /// <summary>The 400 years after which the calendar repeats.</summary>
    WholeCycle,

    /// <summary>Arithmetic, which holds for ever.</summary>
    ForEver,
}
