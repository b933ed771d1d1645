using NodaTime;
using WaterScript.Language;
using WaterScript.Quantities;
using WaterScript.Text;

namespace WaterScript.Model;

/// <summary>What stands at the end of the pipes.</summary>
internal enum IrrigationMethod
{
    /// <summary>Not said.</summary>
    Unknown,

    /// <summary>Drip lines or emitters.</summary>
    Drip,

    /// <summary>Bubblers.</summary>
    Bubbler,

    /// <summary>Fixed sprays.</summary>
    Spray,

    /// <summary>Rotors.</summary>
    Rotor,

    /// <summary>Misters.</summary>
    Mist,
}

/// <summary>Water of a zone that runs back to a tank, at once.</summary>
/// <param name="Percent">Share of what the zone takes, in per cent.</param>
/// <param name="Supply">The supply that has the tank.</param>
internal readonly record struct WaterReturn(decimal Percent, Supply Supply);

/// <summary>An area watered by one valve, or by hand.</summary>
internal sealed record Zone
{
    /// <summary>Place among the site's zones, from 0, in order of the file.</summary>
    public required int Index { get; init; }

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>What people read, or null.</summary>
    public string? Label { get; init; }

    /// <summary>Where its name stands.</summary>
    public required Location Origin { get; init; }

    /// <summary>The controller that its valve is wired to; null where somebody waters it by hand, and nothing switches it.</summary>
    public required Controller? Controller { get; init; }

    /// <summary>Whether somebody waters it by hand: it has no valve, no pump or master follows it, and <c>all</c> leaves it out.</summary>
    public bool IsHandWatered => Controller is null;

    /// <summary>The controller's output as written, from 1, or null.</summary>
    public Placed<int>? WrittenOutput { get; init; }

    /// <summary>The controller's output, from 1; 0 where none is given.</summary>
    public int Output => WrittenOutput?.Value ?? 0;

    /// <summary>Its kind of valve, or null.</summary>
    public Valve? Valve { get; init; }

    /// <summary>Where its water comes from, or null.</summary>
    public Supply? Supply { get; init; }

    /// <summary>Flow while it is open, as written; null where only emitters are given, or nothing.</summary>
    public Placed<Quantity>? Flow { get; init; }

    /// <summary>Number of emitters, or null.</summary>
    public Placed<decimal>? Emitters { get; init; }

    /// <summary>Flow of one emitter, or null.</summary>
    public Placed<Quantity>? EmitterFlow { get; init; }

    /// <summary>Ground that it wets, or null.</summary>
    public Placed<Quantity>? Area { get; init; }

    /// <summary>Application rate as written, or null.</summary>
    public Placed<Quantity>? Rate { get; init; }

    /// <summary>What stands at the end of the pipes.</summary>
    public IrrigationMethod Method { get; init; }

    /// <summary>Share of the water that the plants can use, in per cent, or null.</summary>
    public Placed<decimal>? EfficiencyPercent { get; init; }

    /// <summary>Low-quarter distribution uniformity in per cent, or null.</summary>
    public Placed<decimal>? UniformityPercent { get; init; }

    /// <summary>What runs back to a tank, or null.</summary>
    public Placed<WaterReturn>? Returns { get; init; }

    /// <summary>Its soil, own or built in, or null.</summary>
    public Soil? Soil { get; init; }

    /// <summary>Where that is written; null where it is not.</summary>
    public Location? SoilLine { get; init; }

    /// <summary>Slope of the ground in per cent, or null.</summary>
    public Placed<decimal>? SlopePercent { get; init; }

    /// <summary>Its plants, own or built in, or null.</summary>
    public Plants? Plants { get; init; }

    /// <summary>Whether it waters no plants, by <c>plants none</c>: it lays dust, keeps off frost, flushes pipes.</summary>
    public bool WatersNoPlants { get; init; }

    /// <summary>A share of every run time, in per cent, as written, or null.</summary>
    public Placed<decimal>? WrittenTrim { get; init; }

    /// <summary>A share of every run time, in per cent; 100 unless written.</summary>
    public decimal TrimPercent => WrittenTrim?.Value ?? 100;

    /// <summary>The longest run meant, or null.</summary>
    public Placed<Duration>? Longest { get; init; }

    /// <summary>The shortest run worth it, or null.</summary>
    public Placed<Duration>? Shortest { get; init; }

    /// <summary>The least time from closing to opening again, or null.</summary>
    public Placed<Duration>? Rest { get; init; }

    /// <summary>The longest time without water, or null.</summary>
    public Placed<Duration>? NeverDryFor { get; init; }

    /// <summary>The wire from controller to valve, or null.</summary>
    public Placed<Wire>? Wire { get; init; }

    /// <summary>Whether its heads throw water at plants, so that sun and wind take a share of it.</summary>
    public bool WatersFromAbove => !WatersNoPlants && Method is IrrigationMethod.Spray or IrrigationMethod.Rotor;

    /// <summary>Whether it is wired but not in use.</summary>
    public bool IsSpare { get; init; }

    /// <summary>Flow in L/min: as written, or of all emitters; null where neither is given.</summary>
    public decimal? LitresPerMinute => Flow?.InBase ?? (EmitterFlow?.InBase * Emitters);

    /// <summary>The same, exactly: six emitters of 4 L/h are 0.4 L/min.</summary>
    public Fraction? ExactLitresPerMinute => Flow is { } flow ? Fraction.Of(flow.Value)
        : EmitterFlow is { } emitter && Emitters is { } count ? Fraction.Of(emitter.Value) * Fraction.Of(count.Value) : null;

    /// <summary>
    /// Application rate in mm/h: as written, or 60 · (L/min) / m², since 1 L on 1 m² stands 1 mm deep; null where it cannot be known.
    /// </summary>
    public decimal? MillimetresPerHour => Rate?.InBase ?? (Area is null ? null : 60 * LitresPerMinute / Area?.InBase);

    /// <summary>The same, exactly.</summary>
    public Fraction? ExactMillimetresPerHour => Rate is { } rate ? Fraction.Of(rate.Value)
        : Area is { } area && ExactLitresPerMinute is { } flow ? Fraction.Of(60) * flow / Fraction.Of(area.Value) : null;

    /// <summary>What people read: the label, or else the name; on one line, in which every character can be seen.</summary>
    public string DisplayName => DisplayLine.CleanLine(Label ?? Name);
}
