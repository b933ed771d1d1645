using System.Collections.Immutable;
using NodaTime;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Answers.Diff;

/// <summary>What happened to a schedule.</summary>
internal enum ScheduleChangeKind
{
    /// <summary>It is new.</summary>
    Added,

    /// <summary>It is gone.</summary>
    Removed,

    /// <summary>It waters otherwise.</summary>
    Changed,

    /// <summary>It has another name, and waters the same unless it says what turned.</summary>
    Renamed,
}

/// <summary>A schedule that is not what it was.</summary>
/// <param name="Kind">What happened to it.</param>
/// <param name="Old">As it was; null for a new one.</param>
/// <param name="New">As it is; null for one that is gone.</param>
/// <param name="Turns">What of it changed, rule by rule, then its steps, then what each zone gets.</param>
/// <param name="First">The first date on which the watering differs; null where none does, and for a manual schedule.</param>
internal sealed record ScheduleChange(ScheduleChangeKind Kind, Schedule? Old, Schedule? New, ImmutableArray<Turn> Turns, LocalDate? First)
{
    /// <summary>Its name, the new one where there are two.</summary>
    public string Name => (New ?? Old)!.Name;

    /// <summary>Where it stands; in the old version where it is gone.</summary>
    public Location Place => (New ?? Old)!.Origin;
}

/// <summary>Something that was one thing and is another.</summary>
/// <param name="What">What it is: <c>days</c>, <c>start</c>, <c>step</c>, or a zone as people call it.</param>
/// <param name="Old">As it was; empty where there was none.</param>
/// <param name="New">As it is; empty where there is none.</param>
/// <param name="IsNamed">Whether people need to read what it is; lines as they are written say so themselves.</param>
internal sealed record Turn(string What, string Old, string New, bool IsNamed = false)
{
    /// <summary>What dates are called that a schedule has.</summary>
    public const string Dates = "dates";

    /// <summary>What the share of each month is called.</summary>
    public const string Shares = "shares";

    /// <summary>What a step is called.</summary>
    public const string Step = "step";

    /// <summary>What waterings are called, where nothing else tells how many come or go.</summary>
    public const string Waterings = "waterings";

    /// <summary>Whether it is one that says on which dates a schedule is due.</summary>
    public bool IsOfDates => What is "days" or "season" or "except" or "manual";

    /// <summary>Where it is written, in the old version where it is gone; null for what follows from something else.</summary>
    public Location? Place { get; init; }

    /// <summary>What it does, as words; empty where they say so.</summary>
    public string Effect { get; init; } = "";
}
