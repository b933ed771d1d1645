using System.Collections.Immutable;
using NodaTime;
using WaterScript.Language;
using WaterScript.Quantities;
using WaterScript.Text;

namespace WaterScript.Model;

/// <summary>Where water comes from: a tap, a main, a tank behind a pump.</summary>
internal sealed record Supply
{
    /// <summary>Place among the site's supplies, from 0, in order of the file.</summary>
    public required int Index { get; init; }

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>What people read, or null.</summary>
    public string? Label { get; init; }

    /// <summary>Where its name stands.</summary>
    public required Location Origin { get; init; }

    /// <summary>The most that it gives, or null.</summary>
    public Placed<Quantity>? Flow { get; init; }

    /// <summary>The least that its pump may be asked for, or null.</summary>
    public Placed<Quantity>? MinimumFlow { get; init; }

    /// <summary>Whether a bypass takes what is under the minimum.</summary>
    public bool HasBypass { get; init; }

    /// <summary>Its pressure tank, or null.</summary>
    public Placed<PressureTank>? PressureTank { get; init; }

    /// <summary>Whether its pump may run or start while the zones take less: a bypass or a pressure tank takes the rest.</summary>
    public bool TakesUp => HasBypass || PressureTank?.Value.UsableLitres is not null;

    /// <summary>Volume of its tank, or null.</summary>
    public Placed<Quantity>? Tank { get; init; }

    /// <summary>What the tank holds on <see cref="ContainsOn"/>, or null for full at the start.</summary>
    public Placed<Quantity>? Contains { get; init; }

    /// <summary>The date of <see cref="Contains"/>, or null.</summary>
    public Placed<LocalDate>? ContainsOn { get; init; }

    /// <summary>Flow into the tank, or null.</summary>
    public Placed<Quantity>? Refill { get; init; }

    /// <summary>The level at which that begins; null where it flows at all hours.</summary>
    public Quantity? RefillFrom { get; init; }

    /// <summary>The level at which it ends; above <see cref="RefillFrom"/>, null where that is.</summary>
    public Quantity? RefillTo { get; init; }

    /// <summary>Roof area that rain is caught from, or null.</summary>
    public Placed<Quantity>? CatchmentArea { get; init; }

    /// <summary>Share of that rain that reaches the tank, in per cent, or null.</summary>
    public Placed<decimal>? CatchmentPercent { get; init; }

    /// <summary>What must stay in the tank, or null.</summary>
    public Placed<Quantity>? Reserve { get; init; }

    /// <summary>The most in a day from local midnight, or null.</summary>
    public Placed<Quantity>? Daily { get; init; }

    /// <summary>What stands between two waterings, or null.</summary>
    public ChangeOver? Change { get; init; }

    /// <summary>The supply that feeds it, or null. Never leads back to itself.</summary>
    public Supply? FedBy { get; init; }

    /// <summary>It, and those that watering from it draws from at once: a tank on the way stands between them.</summary>
    public IEnumerable<Supply> WithFeeders()
    {
        for (var supply = this; supply is not null; supply = supply.Tank is null ? supply.FedBy : null) yield return supply;
    }

    /// <summary>
    /// What stands between a watering from another supply and one from this: what is written for the nearest supply that both draw from, or for one that
    /// feeds that; null for nothing.
    /// </summary>
    public ChangeOver? ChangeAfter(Supply before) => WithFeeders()
        .Where(supply => supply.Change is not null && before.WithFeeders().Any(other => other.Index == supply.Index))
        .Select(supply => supply.Change).FirstOrDefault();

    /// <summary>Its protection against backflow, or null.</summary>
    public Placed<BackflowProtection>? Backflow { get; init; }

    /// <summary>What its water costs, or null. None of those that feed it has one.</summary>
    public Tariff? Tariff { get; init; }

    /// <summary>What else goes through its meter, or null; counts for bills alone.</summary>
    public Placed<OtherUse>? OtherUse { get; init; }

    /// <summary>Whether an atmospheric vacuum breaker stands behind it.</summary>
    public bool HasAtmosphericBackflow => Backflow is not null;

    /// <summary>What people read: the label, or else the name; on one line, in which every character can be seen.</summary>
    public string DisplayName => DisplayLine.CleanLine(Label ?? Name);
}

/// <summary>What keeps water of a zone from flowing back.</summary>
internal enum BackflowProtection
{
    /// <summary>An atmospheric vacuum breaker.</summary>
    Atmospheric,
}

/// <summary>What stands between one watering and the next on a supply.</summary>
/// <param name="Origin">Where it is written.</param>
/// <param name="Length">How long.</param>
/// <param name="IsOverlap">Whether both are open for so long; otherwise neither is.</param>
internal sealed record ChangeOver(Location Origin, Duration Length, bool IsOverlap);

/// <summary>What switches outputs.</summary>
internal sealed record Controller
{
    /// <summary>Place among the site's controllers, from 0, in order of the file.</summary>
    public required int Index { get; init; }

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>What people read, or null.</summary>
    public string? Label { get; init; }

    /// <summary>Where its name stands; null for the one that a site without controllers has.</summary>
    public Location? Origin { get; init; }

    /// <summary>Number of outputs, or null.</summary>
    public Placed<int>? Outputs { get; init; }

    /// <summary>Time between two openings as written, or null.</summary>
    public Placed<Duration>? WrittenStagger { get; init; }

    /// <summary>Time between two openings; zero where none is given.</summary>
    public Duration Stagger => WrittenStagger?.Value ?? Duration.Zero;

    /// <summary>The most zones at once, or null.</summary>
    public Placed<int>? AtMostZones { get; init; }

    /// <summary>Whether two schedules may run at once on it as written, or null.</summary>
    public Placed<bool>? WrittenMayOverlap { get; init; }

    /// <summary>Whether two schedules may run at once on it; null where it is not said.</summary>
    public bool? SchedulesMayOverlap => WrittenMayOverlap?.Value;

    /// <summary>How far its clock may be off, or null.</summary>
    public Placed<Duration>? ClockWithin { get; init; }

    /// <summary>Its power supply, or null.</summary>
    public Power? Power { get; init; }

    /// <summary>What people read: the label, or else the name; on one line, in which every character can be seen.</summary>
    public string DisplayName => DisplayLine.CleanLine(Label ?? Name);
}

/// <summary>The power supply of a controller. What is not given is null.</summary>
internal sealed record Power
{
    /// <summary>Where it stands.</summary>
    public required Location Origin { get; init; }

    /// <summary>Apparent power of the transformer.</summary>
    public Placed<Quantity>? Transformer { get; init; }

    /// <summary>Voltage of the transformer.</summary>
    public Placed<Quantity>? TransformerVoltage { get; init; }

    /// <summary>Current that it gives for as long as needed.</summary>
    public Placed<Quantity>? Continuous { get; init; }

    /// <summary>Voltage of that current.</summary>
    public Placed<Quantity>? ContinuousVoltage { get; init; }

    /// <summary>The most current for a moment.</summary>
    public Placed<Quantity>? Peak { get; init; }

    /// <summary>Capacitance that pulses are drawn from.</summary>
    public Placed<Quantity>? Capacitor { get; init; }

    /// <summary>Voltage to which it is charged.</summary>
    public Placed<Quantity>? CapacitorVoltage { get; init; }

    /// <summary>Power that recharges it.</summary>
    public Placed<Quantity>? Recharge { get; init; }

    /// <summary>Share of that power that reaches it, in per cent.</summary>
    public Placed<decimal>? RechargeEfficiencyPercent { get; init; }

    /// <summary>Current that the controller draws at all times.</summary>
    public Placed<Quantity>? Standby { get; init; }

    /// <summary>The battery that it lives on; null also for one of another controller.</summary>
    public Battery? Battery { get; init; }

    /// <summary>The controller whose battery it lives on.</summary>
    public Placed<SharedBattery>? BatteryOf { get; init; }
}

/// <summary>A kind of valve.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Label">What people read, or null.</param>
/// <param name="Origin">Where its name stands.</param>
internal abstract record Valve(string Name, string? Label, Location Origin)
{
    /// <summary>Voltage that it needs to move, or null.</summary>
    public Placed<Quantity>? MinimumVoltage { get; init; }
}

/// <summary>A valve that a pulse opens and a pulse of the other polarity closes.</summary>
internal sealed record LatchingValve(string Name, string? Label, Location Origin) : Valve(Name, Label, Origin)
{
    /// <summary>Length of the pulse, or null.</summary>
    public Placed<Duration>? Pulse { get; init; }

    /// <summary>When in the pulse the plunger moves, or null.</summary>
    public Placed<Duration>? ResponseTime { get; init; }

    /// <summary>Resistance of the coil, or null.</summary>
    public Placed<Quantity>? Coil { get; init; }
}

/// <summary>A valve that is open while it is powered.</summary>
internal sealed record NonLatchingValve(string Name, string? Label, Location Origin) : Valve(Name, Label, Origin)
{
    /// <summary>Current for the moment of opening, or null.</summary>
    public Placed<Quantity>? Inrush { get; init; }

    /// <summary>Current while open, or null.</summary>
    public Placed<Quantity>? Holding { get; init; }
}

/// <summary>What a device does for its zones.</summary>
internal enum DeviceKind
{
    /// <summary>Lifts or boosts the water.</summary>
    Pump,

    /// <summary>A master valve: lets water into the main.</summary>
    Master,

    /// <summary>Doses.</summary>
    Injector,
}

/// <summary>One more output that switches a device.</summary>
/// <param name="Controller">The controller.</param>
/// <param name="Number">Its output, from 1.</param>
internal sealed record FurtherOutput(Controller Controller, Placed<int> Number);

/// <summary>A pump, a master valve or an injector: it runs because of its zones.</summary>
internal sealed record Device
{
    /// <summary>Place among the site's devices, from 0, in order of the file.</summary>
    public required int Index { get; init; }

    /// <summary>What it does.</summary>
    public required DeviceKind Kind { get; init; }

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>What people read, or null.</summary>
    public string? Label { get; init; }

    /// <summary>Where its name stands.</summary>
    public required Location Origin { get; init; }

    /// <summary>The controller that it is wired to.</summary>
    public required Controller Controller { get; init; }

    /// <summary>The controller's output as written, from 1, or null.</summary>
    public Placed<int>? WrittenOutput { get; init; }

    /// <summary>The controller's output, from 1; 0 where none is given.</summary>
    public int Output => WrittenOutput?.Value ?? 0;

    /// <summary>What it is wired to beside that, each of another controller: such an output is on for the zones of its own controller.</summary>
    public ImmutableArray<FurtherOutput> FurtherOutputs { get; init; } = [];

    /// <summary>The zones it serves, in order of the file; none that is watered by hand.</summary>
    public required ImmutableArray<Zone> Zones { get; init; }

    /// <summary>The supply whose zones it serves, or null when the zones are listed.</summary>
    public Supply? Supply { get; init; }

    /// <summary>The most that it gives or lets through, or null.</summary>
    public Placed<Quantity>? Flow { get; init; }

    /// <summary>Power that its motor draws while it is on, or null.</summary>
    public Placed<Quantity>? Motor { get; init; }

    /// <summary>Current that its output carries, or null.</summary>
    public Placed<Quantity>? Load { get; init; }

    /// <summary>Its kind of valve, or null.</summary>
    public Valve? Valve { get; init; }

    /// <summary>Current as its motor starts, or null.</summary>
    public Placed<StartingCurrent>? Inrush { get; init; }

    /// <summary>Voltage that it needs to start, where that is not its valve's, or null.</summary>
    public Placed<Quantity>? MinimumVoltage { get; init; }

    /// <summary>The wire from controller to device, or null.</summary>
    public Placed<Wire>? Wire { get; init; }

    /// <summary>When it starts as written, or null.</summary>
    public Placed<Duration>? WrittenStart { get; init; }

    /// <summary>When it starts, after its first zone opens; negative before. Zero where nothing is said.</summary>
    public Duration StartsAfter => WrittenStart?.Value ?? Duration.Zero;

    /// <summary>When it stops as written, or null.</summary>
    public Placed<Duration>? WrittenStop { get; init; }

    /// <summary>When it stops, after its last zone closes; negative before. Zero where nothing is said.</summary>
    public Duration StopsAfter => WrittenStop?.Value ?? Duration.Zero;

    /// <summary>Length of the gaps that leave it on as written, or null.</summary>
    public Placed<Duration>? WrittenBridges { get; init; }

    /// <summary>Gaps of up to this length between two zones leave it on; zero where nothing is said.</summary>
    public Duration Bridges => WrittenBridges?.Value ?? Duration.Zero;

    /// <summary>The most starts an hour, or null.</summary>
    public Placed<int>? StartsAnHour { get; init; }

    /// <summary>Of an injector: water before the dose, or null.</summary>
    public Placed<Duration>? After { get; init; }

    /// <summary>Of an injector: water after the dose, or null.</summary>
    public Placed<Duration>? Rinse { get; init; }

    /// <summary>Of an injector: what it doses in a time, or null.</summary>
    public Placed<Quantity>? Doses { get; init; }

    /// <summary>The word that begins its block.</summary>
    public string Word => Kind switch { DeviceKind.Pump => "pump", DeviceKind.Master => "master", _ => "injector" };

    /// <summary>
    /// As each controller that switches it has it, in the order in which they are named: with that output, and the zones that it is on for. Zones of
    /// any other controller go with the first.
    /// </summary>
    internal IEnumerable<Device> ByOutput() => FurtherOutputs.IsEmpty
        ? [this]
        : [
            this with
            {
                FurtherOutputs = [],
                Zones = Zones.RemoveAll(zone => FurtherOutputs.Any(further => further.Controller.Index == zone.Controller!.Index)),
            },
            .. FurtherOutputs.Select(further => this with
            {
                Controller = further.Controller,
                WrittenOutput = further.Number,
                FurtherOutputs = [],
                Zones = Zones.RemoveAll(zone => zone.Controller!.Index != further.Controller.Index),
            }),
        ];

    /// <summary>Whether it is on whenever a zone is watered; an injector is so only for the steps that go through it.</summary>
    internal bool RunsBecauseOf(Zone zone) => Kind != DeviceKind.Injector && Zones.Any(served => served.Index == zone.Index);

    /// <summary>What people read: the label, or else the name; on one line, in which every character can be seen.</summary>
    public string DisplayName => DisplayLine.CleanLine(Label ?? Name);
}
