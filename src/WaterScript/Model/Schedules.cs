using System.Collections.Immutable;
using NodaTime;
using WaterScript.Text;

namespace WaterScript.Model;

/// <summary>When to water, and what.</summary>
internal sealed record Schedule
{
    /// <summary>Place among the site's schedules, from 0, in order of the file.</summary>
    public required int Index { get; init; }

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>What people read, or null.</summary>
    public string? Label { get; init; }

    /// <summary>What it was called before, so that its events in a calendar stay the same; null for nothing else.</summary>
    public string? Formerly { get; init; }

    /// <summary>Where that name stands, or null.</summary>
    public Location? FormerlyOrigin { get; init; }

    /// <summary>Where its name stands.</summary>
    public required Location Origin { get; init; }

    /// <summary>Whether it has no calendar.</summary>
    public bool IsManual { get; init; }

    /// <summary>Why there is this one pass outside the calendar; null for an ordinary schedule.</summary>
    public string? ExtraBecause { get; init; }

    /// <summary>Whether it is one pass outside the calendar, which scales do not touch.</summary>
    public bool IsExtra => ExtraBecause is not null;

    /// <summary>The days, as a union; empty for a manual schedule, and for one that takes the days of the schedule it follows.</summary>
    public ImmutableArray<DaySet> Days { get; init; } = [];

    /// <summary>Its bounds, or null.</summary>
    public Season? Season { get; init; }

    /// <summary>Days taken away, by lines of its own and by <c>skip</c>.</summary>
    public ImmutableArray<DaySet> Except { get; init; } = [];

    /// <summary>The lines that name <see cref="Days"/>, in order of the file.</summary>
    public ImmutableArray<DayLine> DayLines { get; init; } = [];

    /// <summary>Where <see cref="Season"/> is written, or null.</summary>
    public Location? SeasonOrigin { get; init; }

    /// <summary>The lines that name <see cref="Except"/>.</summary>
    public ImmutableArray<DayLine> ExceptLines { get; init; } = [];

    /// <summary>Those of its own.</summary>
    public IEnumerable<DayLine> OwnExceptLines => ExceptLines.Where(line => line.Because is null);

    /// <summary>Those of <c>skip</c>.</summary>
    public IEnumerable<DayLine> Skips => ExceptLines.Where(line => line.Because is not null);

    /// <summary>What its passes are calculated from, numbered from 1 in written order; empty for a manual schedule.</summary>
    public ImmutableArray<Start> Starts { get; init; } = [];

    /// <summary>More passes after the first, or null.</summary>
    public Repeat? Repeat { get; init; }

    /// <summary>When what still runs is cut, or null.</summary>
    public Cut? Cut { get; init; }

    /// <summary>Its own scale in place of the site's, or null.</summary>
    public ScaleUse? Scale { get; init; }

    /// <summary>The restrictions that it keeps to, in the order of the lines: those at the top of the file first.</summary>
    public ImmutableArray<Keeping> Keeps { get; init; } = [];

    /// <summary>A remark kept in the outputs, or null.</summary>
    public string? Note { get; init; }

    /// <summary>What a pass does.</summary>
    public required ImmutableArray<Step> Steps { get; init; }

    /// <summary>What people read: the label, or else the name; on one line, in which every character can be seen.</summary>
    public string DisplayName => DisplayLine.CleanLine(Label ?? Name);
}

/// <summary>A line by which a schedule keeps to a restriction.</summary>
/// <param name="Origin">Where it stands.</param>
/// <param name="Restriction">The restriction.</param>
/// <param name="IsOfAll">Whether it stands at the top of a file, for all schedules.</param>
internal sealed record Keeping(Location Origin, Restriction Restriction, bool IsOfAll);

/// <summary>A line that names days.</summary>
/// <param name="Origin">Where it stands.</param>
/// <param name="Days">What it names, as a union.</param>
internal sealed record DayLine(Location Origin, ImmutableArray<DaySet> Days)
{
    /// <summary>The reason of a <c>skip</c> at the top of the file; null for a line of the schedule itself.</summary>
    public string? Because { get; init; }
}

/// <summary>What passes are calculated from.</summary>
/// <param name="Number">From 1, in written order over all starts of the schedule.</param>
/// <param name="Origin">Where it is written.</param>
/// <param name="On">Days that narrow the schedule's own, as a union; empty for all of them.</param>
internal abstract record Start(int Number, Location Origin, ImmutableArray<DaySet> On)
{
    /// <summary>Where those days are written, or null.</summary>
    public Location? OnOrigin { get; init; }
}

/// <summary>The first pass starts at a moment of the date.</summary>
internal sealed record StartAt(int Number, Location Origin, ImmutableArray<DaySet> On, Moment Moment) : Start(Number, Origin, On);

/// <summary>The last step of the last pass ends at a moment of the date.</summary>
internal sealed record FinishBy(int Number, Location Origin, ImmutableArray<DaySet> On, Moment Moment) : Start(Number, Origin, On);

/// <summary>The first pass starts when the last pass of another schedule of the same date is over.</summary>
/// <param name="Number">From 1, in written order.</param>
/// <param name="Origin">Where it is written.</param>
/// <param name="Other">Name of the other schedule, which exists, has a calendar and does not follow this one.</param>
/// <param name="Delay">Elapsed time after its last step, 0 or more.</param>
internal sealed record StartAfter(int Number, Location Origin, string Other, Duration Delay) : Start(Number, Origin, []);

/// <summary>More passes after the first, each so long after the one before, from start to start.</summary>
/// <param name="Origin">Where it is written.</param>
/// <param name="Every">Elapsed time from start to start, whole seconds above zero.</param>
internal abstract record Repeat(Location Origin, Duration Every);

/// <summary>So many passes in all.</summary>
/// <param name="Origin">Where it is written.</param>
/// <param name="Every">Elapsed time from start to start.</param>
/// <param name="Passes">The first included, 1 or more.</param>
internal sealed record RepeatTimes(Location Origin, Duration Every, int Passes) : Repeat(Origin, Every);

/// <summary>Passes that start no later than a moment.</summary>
/// <param name="Origin">Where it is written.</param>
/// <param name="Every">Elapsed time from start to start.</param>
/// <param name="Until">The moment.</param>
/// <param name="NextDay">Whether it is one of the day after the pass's date.</param>
internal sealed record RepeatUntil(Location Origin, Duration Every, Moment Until, bool NextDay) : Repeat(Origin, Every);

/// <summary>When what still runs is cut.</summary>
/// <param name="Origin">Where it is written.</param>
/// <param name="At">The moment.</param>
/// <param name="NextDay">Whether it is one of the day after the pass's date.</param>
internal sealed record Cut(Location Origin, Moment At, bool NextDay);

/// <summary>A schedule's own scale: a named one, or a fixed share in per cent.</summary>
internal sealed record ScaleUse(Location Origin, string? Name, decimal? Percent);
