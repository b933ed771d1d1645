using System.Collections.Immutable;
using NodaTime;
using WaterScript.Language;
using WaterScript.Quantities;
using WaterScript.Text;

namespace WaterScript.Model;

/// <summary>The battery of a controller. What is not given is null.</summary>
internal sealed record Battery
{
    private const decimal SecondsInHour = 3600;
    private const decimal UsualPercent = 50;

    /// <summary>Where it stands.</summary>
    public required Location Origin { get; init; }

    /// <summary>Its charge.</summary>
    public required Quantity Capacity { get; init; }

    /// <summary>Its voltage.</summary>
    public required Quantity Voltage { get; init; }

    /// <summary>Share of it that may be used, in per cent.</summary>
    public Placed<decimal>? WrittenUsable { get; init; }

    /// <summary>That share; half where nothing is said.</summary>
    public decimal UsablePercent => WrittenUsable?.Value ?? UsualPercent;

    /// <summary>What a degree below 25 °C takes of what may be used, in per cent.</summary>
    public Placed<decimal>? ColdLossPercent { get; init; }

    /// <summary>The panel that charges it.</summary>
    public Placed<SolarPanel>? Panel { get; init; }

    /// <summary>When it is full again, charged or replaced.</summary>
    public ImmutableArray<Renewal> Renewals { get; init; } = [];

    /// <summary>Days that it has to last without any sun.</summary>
    public Placed<int>? AutonomyDays { get; init; }

    /// <summary>What it holds when it is full, in joules.</summary>
    public decimal Joules => Capacity.InBase * Voltage.InBase * SecondsInHour;
}

/// <summary>A panel that makes current of sunlight; it faces the equator.</summary>
/// <param name="Power">Its peak power.</param>
/// <param name="Tilt">Its angle to the ground, or null for flat.</param>
/// <param name="EfficiencyPercent">Share of its yield that reaches the battery, or null.</param>
internal readonly record struct SolarPanel(Quantity Power, Quantity? Tilt, decimal? EfficiencyPercent);

/// <summary>A battery is full at the start of a date, of one year or of every year.</summary>
/// <param name="Date">The date; null for one of every year.</param>
/// <param name="Day">The day of every year; 29 February stands for 1 March in a common year.</param>
internal readonly record struct Renewal(LocalDate? Date, YearDay Day);

/// <summary>The battery of another controller.</summary>
/// <param name="Controller">Its name.</param>
internal readonly record struct SharedBattery(string Controller);
