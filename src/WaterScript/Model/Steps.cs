using System.Collections.Immutable;
using NodaTime;
using WaterScript.Quantities;
using WaterScript.Text;

namespace WaterScript.Model;

/// <summary>One step of a pass.</summary>
/// <param name="Origin">Where it is written.</param>
internal abstract record Step(Location Origin);

/// <summary>Water, one part after the other.</summary>
/// <param name="Origin">Where it is written.</param>
/// <param name="Parts">At least one; groups are resolved.</param>
/// <param name="For">How long each part runs, whole seconds above zero; null when <paramref name="With"/> says how much.</param>
/// <param name="With">A depth, or a volume for each zone; null when <paramref name="For"/> says how long.</param>
/// <param name="Through">The injector that doses, or null.</param>
internal sealed record WaterStep(Location Origin, ImmutableArray<ZonePart> Parts, Duration? For, Quantity? With, string? Through) : Step(Origin)
{
    /// <summary>Whether neither scale, trim nor the shortest time of a zone touches it; a scale of 0 % leaves out the pass all the same.</summary>
    public bool IsExact { get; init; }

    /// <summary>How much the injector doses, whatever the length of the watering; null where it doses all the way, or there is none.</summary>
    public SizedDose? Dose { get; init; }

    /// <summary>Whether it is one of those of a <see cref="TogetherStep"/>.</summary>
    public bool IsBesideOthers { get; init; }
}

/// <summary>A dose of a time or of an amount: once for each part, from <c>after</c> the part's beginning on. Nothing scales it.</summary>
/// <param name="Origin">Where it is written.</param>
/// <param name="Time">How long, or null.</param>
/// <param name="Amount">How much, or null.</param>
/// <param name="Rate">What the injector doses, where that is needed for the amount.</param>
/// <param name="Seconds">How long it takes.</param>
/// <param name="Needs">The shortest watering that it fits into: water before it, the dose, water after it, in seconds.</param>
internal sealed record SizedDose(Location Origin, Duration? Time, Quantity? Amount, Quantity? Rate, long Seconds, long Needs);

/// <summary>Waterings that begin together; the next step comes when the longest is over.</summary>
/// <param name="Origin">Where it is written.</param>
/// <param name="Waters">At least two, each of one part; no zone is in two of them.</param>
internal sealed record TogetherStep(Location Origin, ImmutableArray<WaterStep> Waters) : Step(Origin);

/// <summary>Zones that are on together.</summary>
/// <param name="Origin">Where they are written.</param>
/// <param name="Zones">At least one, each once, in written order.</param>
internal sealed record ZonePart(Location Origin, ImmutableArray<Zone> Zones);

/// <summary>Nothing, for a while.</summary>
/// <param name="Origin">Where it is written.</param>
/// <param name="Length">Whole seconds above zero.</param>
internal sealed record PauseStep(Location Origin, Duration Length) : Step(Origin);

/// <summary>Steps done several times over.</summary>
/// <param name="Origin">Where it is written.</param>
/// <param name="Times">1 or more.</param>
/// <param name="Steps">At least one.</param>
internal sealed record RepeatStep(Location Origin, int Times, ImmutableArray<Step> Steps) : Step(Origin);

/// <summary>Waterings split into cycles with time to soak in between.</summary>
/// <param name="Origin">Where it is written.</param>
/// <param name="Cycle">The longest piece; null for <c>auto</c>.</param>
/// <param name="Soak">The least time between two pieces of a zone; null for <c>auto</c>.</param>
/// <param name="Steps">Waterings, and runs of sequences of waterings.</param>
internal sealed record CycleStep(Location Origin, Duration? Cycle, Duration? Soak, ImmutableArray<Step> Steps) : Step(Origin);

/// <summary>The steps of a sequence, in its place.</summary>
internal sealed record RunStep(Location Origin, Sequence Sequence) : Step(Origin);

/// <summary>Steps under a name. A sequence never reaches itself.</summary>
internal sealed record Sequence(string Name, string? Label, Location Origin, ImmutableArray<Step> Steps);
