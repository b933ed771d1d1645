using System.Collections.Immutable;
using NodaTime;
using WaterScript.Quantities;
using WaterScript.Text;

namespace WaterScript.Model;

/// <summary>A place on Earth.</summary>
/// <param name="Latitude">Degrees, north positive, -90 to 90.</param>
/// <param name="Longitude">Degrees, east positive, -180 to 180.</param>
/// <param name="Height">Above sea level, or null.</param>
internal sealed record Position(double Latitude, double Longitude, Quantity? Height);

/// <summary>A whole site, once understood: names are resolved, quantities are checked, nothing leads round in a circle.</summary>
internal sealed record Site
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>What people read, or null.</summary>
    public string? Label { get; init; }

    /// <summary>Where its name stands.</summary>
    public required Location Origin { get; init; }

    /// <summary>The zone of every clock time in it.</summary>
    public required DateTimeZone TimeZone { get; init; }

    /// <summary>The version of the data that it is from, such as <c>2026a</c>; letters, digits and few signs.</summary>
    public string TimeZoneData { get; init; } = "";

    /// <summary>Nothing runs before the start of this date.</summary>
    public required LocalDate Effective { get; init; }

    /// <summary>Where it lies, or null.</summary>
    public Position? Position { get; init; }

    /// <summary>The scale of all schedules without one of their own, or null.</summary>
    public ScaleUse? Scale { get; init; }

    /// <summary>What water costs.</summary>
    public ImmutableArray<Tariff> Tariffs { get; init; } = [];

    /// <summary>In order of the file, as all that follow.</summary>
    public ImmutableArray<Supply> Supplies { get; init; } = [];

    /// <summary>At least one.</summary>
    public ImmutableArray<Controller> Controllers { get; init; } = [];

    /// <summary>Kinds of valve.</summary>
    public ImmutableArray<Valve> Valves { get; init; } = [];

    /// <summary>Pumps, masters and injectors.</summary>
    public ImmutableArray<Device> Devices { get; init; } = [];

    /// <summary>Zones.</summary>
    public ImmutableArray<Zone> Zones { get; init; } = [];

    /// <summary>Soils of its own.</summary>
    public ImmutableArray<Soil> Soils { get; init; } = [];

    /// <summary>Plants of its own.</summary>
    public ImmutableArray<Plants> Plants { get; init; } = [];

    /// <summary>Its climate, or null.</summary>
    public Climate? Climate { get; init; }

    /// <summary>Scales.</summary>
    public ImmutableArray<Scale> Scales { get; init; } = [];

    /// <summary>Restrictions.</summary>
    public ImmutableArray<Restriction> Restrictions { get; init; } = [];

    /// <summary>Holds.</summary>
    public ImmutableArray<Hold> Holds { get; init; } = [];

    /// <summary>Closed seasons.</summary>
    public ImmutableArray<ClosedSeason> ClosedSeasons { get; init; } = [];

    /// <summary>Sequences.</summary>
    public ImmutableArray<Sequence> Sequences { get; init; } = [];

    /// <summary>Schedules.</summary>
    public ImmutableArray<Schedule> Schedules { get; init; } = [];


    /// <summary>Names that nothing in it asks for: of tariffs, valves, soils, plants, scales, groups, sequences and lets.</summary>
    public ImmutableArray<UnusedName> Unused { get; init; } = [];

    /// <summary>What the user accepts.</summary>
    public ImmutableArray<Acceptance> Acceptances { get; init; } = [];

    /// <summary>What people read: the label, or else the name; on one line, in which every character can be seen.</summary>
    public string DisplayName => DisplayLine.CleanLine(Label ?? Name);

    /// <summary>The length of all files that were read for it, in UTF-16 code units.</summary>
    public long SourceLength { get; init; }
}
