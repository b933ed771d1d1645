using System.Collections.Immutable;
using NodaTime;
using WaterScript.Quantities;
using WaterScript.Text;

namespace WaterScript.Model;

/// <summary>A local rule as the user read it.</summary>
internal sealed record Restriction
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>What people read, or null.</summary>
    public string? Label { get; init; }

    /// <summary>Where its name stands.</summary>
    public required Location Origin { get; init; }

    /// <summary>The zones it is for; empty for all.</summary>
    public ImmutableArray<Zone> Zones { get; init; } = [];

    /// <summary>When it is in force; null for always.</summary>
    public Season? Season { get; init; }

    /// <summary>Days on which watering is allowed, as a union; empty for all.</summary>
    public ImmutableArray<DaySet> AllowedDays { get; init; } = [];

    /// <summary>The first line that says which days are allowed or taken away, or null.</summary>
    public Location? DaysOrigin { get; init; }

    /// <summary>Days taken away from them.</summary>
    public ImmutableArray<DaySet> Except { get; init; } = [];

    /// <summary>Hours in which watering is allowed, as a union, half open; empty for all.</summary>
    public ImmutableArray<Hours> AllowedHours { get; init; } = [];

    /// <summary>Its <c>at most</c> lines.</summary>
    public ImmutableArray<AtMost> AtMost { get; init; } = [];

    /// <summary>Zones it does not hold for.</summary>
    public ImmutableArray<Exemption> Exempt { get; init; } = [];

    /// <summary>The first day of a week.</summary>
    public IsoDayOfWeek WeekStarts { get; init; } = IsoDayOfWeek.Monday;

    /// <summary>What people read: the label, or else the name; on one line, in which every character can be seen.</summary>
    public string DisplayName => DisplayLine.CleanLine(Label ?? Name);
}

/// <summary>Hours of a day: the first moment is included, the last is not; over midnight when the first is the later one.</summary>
internal sealed record Hours(Location Origin, Moment From, Moment To);

/// <summary>What an <c>at most</c> line counts.</summary>
internal enum LimitKind
{
    /// <summary>Days with water in a week.</summary>
    DaysAWeek,

    /// <summary>Run time in a day.</summary>
    TimeADay,

    /// <summary>Depth in a day.</summary>
    DepthADay,

    /// <summary>Zones at a time.</summary>
    ZonesAtATime,

    /// <summary>Volume in a day, or in something longer.</summary>
    Volume,
}

/// <summary>What a volume is counted over: local dates that the restriction is in force on.</summary>
internal enum LimitPeriod
{
    /// <summary>A date.</summary>
    Day,

    /// <summary>A week, from the day on which the restriction's weeks start.</summary>
    Week,

    /// <summary>A month of the calendar.</summary>
    Month,

    /// <summary>The dates from the first to the last of the restriction's own season.</summary>
    Season,

    /// <summary>A year of the calendar.</summary>
    Year,
}

/// <summary>An <c>at most</c> line.</summary>
/// <param name="Origin">Where it stands.</param>
/// <param name="Kind">What it counts.</param>
/// <param name="Amount">Days, seconds, millimetres, zones or litres.</param>
/// <param name="PerZone">Whether each zone counts for itself; otherwise the site.</param>
internal sealed record AtMost(Location Origin, LimitKind Kind, decimal Amount, bool PerZone)
{
    /// <summary>What a volume is counted over; a day for all else that is counted by date.</summary>
    public LimitPeriod Period { get; init; }

    /// <summary>The volume as written, whose unit people read; null for what is no volume.</summary>
    public Quantity? Volume { get; init; }
}

/// <summary>Zones that a restriction does not hold for.</summary>
/// <param name="Origin">Where it stands.</param>
/// <param name="Zones">At least one.</param>
/// <param name="Dates">When; null for always.</param>
internal sealed record Exemption(Location Origin, ImmutableArray<Zone> Zones, Season? Dates);

/// <summary>Ground that is kept dry.</summary>
/// <param name="Origin">Where it stands.</param>
/// <param name="Zones">Empty for the whole site.</param>
/// <param name="From">First local moment, included.</param>
/// <param name="Until">First local moment after it; null when it holds until lifted or for <paramref name="For"/>.</param>
/// <param name="For">Elapsed time from <paramref name="From"/>, or null.</param>
/// <param name="Because">The reason.</param>
internal sealed record Hold(Location Origin, ImmutableArray<Zone> Zones, LocalDateTime From, LocalDateTime? Until, Duration? For, string Because);

/// <summary>A season of every year in which nothing is watered.</summary>
internal sealed record ClosedSeason(Location Origin, YearlyRange Days, string Because);

/// <summary>A finding that the user accepts, within a scope.</summary>
/// <param name="Origin">Where it stands.</param>
/// <param name="Rule">The slug of the rule, as written; whether there is such a rule is for the linter to say.</param>
/// <param name="Because">The reason.</param>
/// <param name="Until">What first happens before this date; null for always.</param>
/// <param name="Scope">A finding counts when one of its labels lies in here.</param>
internal sealed record Acceptance(Location Origin, Location Rule, string Because, LocalDate? Until, Location Scope);
