using System.Collections.Immutable;
using WaterScript.Answers.Audit.Clocks;
using WaterScript.Answers.Audit.Lists;
using WaterScript.Answers.Audit.Water;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Audit;

/// <summary>What became of a watering.</summary>
internal enum AuditClass
{
    /// <summary>Switched as it was meant, within the tolerance.</summary>
    Done,

    /// <summary>It began later than meant.</summary>
    Late,

    /// <summary>It began earlier than meant.</summary>
    Early,

    /// <summary>It was shorter than meant.</summary>
    Short,

    /// <summary>It was longer than meant.</summary>
    Long,

    /// <summary>It did not run, and the log shows that it was kept then.</summary>
    Missed,

    /// <summary>It ran and was not meant to.</summary>
    Unplanned,

    /// <summary>Somebody opened it by hand.</summary>
    ByHand,

    /// <summary>The device left it out, and says why.</summary>
    Skipped,

    /// <summary>It was broken off, or went on in pieces.</summary>
    Interrupted,

    /// <summary>It was opened, and no closing is logged.</summary>
    CloseNotSeen,

    /// <summary>The device reports a fault.</summary>
    Fault,

    /// <summary>The log has a hole there.</summary>
    NotKnown,

    /// <summary>It was switched, and the meter shows no water.</summary>
    NoWater,

    /// <summary>It was switched, and took less water than its flow gives in that time.</summary>
    TooLittle,

    /// <summary>It was switched, and took more water than its flow gives in that time.</summary>
    TooMuch,
}

/// <summary>A watering that was meant, or that was, or both.</summary>
/// <param name="Class">What became of it.</param>
/// <param name="Zone">The zone.</param>
/// <param name="Schedule">The schedule that it is of; null where it was not meant, and where the list of the device does not name it.</param>
/// <param name="Day">The date that it belongs to, in days since 1970-01-01.</param>
/// <param name="From">When it was meant to begin, in Unix seconds; where it was not meant, when it began.</param>
/// <param name="Seconds">How long it was meant to last; 0 where it was not meant.</param>
/// <param name="ActualFrom">When it began, or null.</param>
/// <param name="ActualSeconds">How long it lasted; null where that is not given.</param>
/// <param name="Why">The reason that the log gives, or null.</param>
/// <param name="Place">The row that it comes from, or null.</param>
internal sealed record AuditEntry(
    AuditClass Class, Zone Zone, Schedule? Schedule, int Day, long From, long Seconds, long? ActualFrom, long? ActualSeconds, string? Why, LogPlace? Place)
{
    /// <summary>Whether it was meant.</summary>
    public bool IsMeant => Seconds > 0;

    /// <summary>What the meter has of it; null where that is not known.</summary>
    public MeteredWatering? Volume { get; init; }

    /// <summary>Seconds of what was meant in which it may have run or not: from the last row before the device started anew.</summary>
    public long NotKnownSeconds { get; init; }
}

/// <summary>Water of a zone.</summary>
/// <param name="Zone">The zone.</param>
/// <param name="MeantSeconds">Run time that was meant.</param>
/// <param name="ActualSeconds">Run time by the log.</param>
/// <param name="NotKnownSeconds">Run time that was meant and of which it is not known what became of it.</param>
/// <param name="MeteredLitres">What meters show for this zone, or null.</param>
internal sealed record AuditedWater(Zone Zone, long MeantSeconds, long ActualSeconds, long NotKnownSeconds, decimal? MeteredLitres)
{
    /// <summary>Litres that were meant, by time and flow; null where the flow is not known.</summary>
    public decimal? MeantLitres => Zone.LitresPerMinute * MeantSeconds / 60;

    /// <summary>Litres by the run time of the log; null where the flow is not known.</summary>
    public decimal? ActualLitres => Zone.LitresPerMinute * ActualSeconds / 60;
}

/// <summary>What ran against what was meant.</summary>
/// <param name="Site">The site.</param>
/// <param name="From">The first moment that the log covers, in Unix seconds.</param>
/// <param name="To">The last.</param>
/// <param name="Entries">In order of time, then of the zones; the first <see cref="MostEntries"/>.</param>
/// <param name="Water">Of each zone.</param>
/// <param name="MeterLitres">What a meter that shows a total went on by; null where there is none.</param>
/// <param name="Lists">The lists of switchings that were in the device, in the order in which the log names them.</param>
/// <param name="ListDates">The dates of the file's own list that they are compared with.</param>
/// <param name="Bad">Rows that were passed over, the first of them.</param>
/// <param name="Rows">Rows that were used.</param>
/// <param name="Doubled">Rows that say again what another said.</param>
internal sealed record AuditReport(
    Site Site,
    long From,
    long To,
    ImmutableArray<AuditEntry> Entries,
    ImmutableArray<AuditedWater> Water,
    decimal? MeterLitres,
    ImmutableArray<AuditedList> Lists,
    Horizon ListDates,
    ImmutableArray<BadRow> Bad,
    long Rows,
    int Doubled)
{
    /// <summary>Entries that a report holds one by one.</summary>
    public const int MostEntries = 100_000;

    /// <summary>Waterings of a kind that people are shown one by one.</summary>
    public const int MostListed = 50;

    /// <summary>Dates of schedules that people are shown one by one.</summary>
    public const int MostDays = 10_000;

    /// <summary>How many entries there are.</summary>
    public required long EntryCount { get; init; }

    /// <summary>What became of the waterings of each schedule and date.</summary>
    public required AuditList<AuditedDay> Days { get; init; }

    /// <summary>The entries of which something is known and that were not done.</summary>
    public required AuditList<AuditEntry> NotAsMeant { get; init; }

    /// <summary>The entries that lie in a hole of the log.</summary>
    public required AuditList<AuditEntry> NotKnown { get; init; }

    /// <summary>How many rows were passed over.</summary>
    public required long BadCount { get; init; }

    /// <summary>Whether the log has hashes of more lists than are listed.</summary>
    public required bool HasMoreLists { get; init; }

    /// <summary>Water that was metered while nothing was open.</summary>
    public required AuditList<WaterLeak> Leaks { get; init; }

    /// <summary>Where the comparison ended before the log did; null where it did not.</summary>
    public required ComparedInPart? InPart { get; init; }

    /// <summary>Seconds by which a watering may begin or last otherwise.</summary>
    public required long Tolerance { get; init; }

    /// <summary>How many waterings there are of each class that there is, in order of the classes.</summary>
    public required ImmutableArray<(AuditClass Class, long Count)> Counts { get; init; }

    /// <summary>How many were meant; what touches is one.</summary>
    public required long MeantCount { get; init; }

    /// <summary>How the clock of the log is off, by which all moments of the report are corrected; null where it is not.</summary>
    public LogClock? Clock { get; init; }

    /// <summary>Whether a deployed timetable says what was meant, and not the file of a site.</summary>
    public bool IsOfDeployed { get; init; }

    /// <summary>Whether the lists were given that the device had.</summary>
    public bool AreListsGiven { get; init; }

    /// <summary>Lists that were due while the device had another, in order.</summary>
    public ImmutableArray<MissedUpdate> Missed { get; init; } = [];

    /// <summary>Whether all was compared, and the log shows that all that was meant was done, skipped with a reason, or by hand.</summary>
    public required bool IsAsMeant { get; init; }
}

/// <summary>The first of many.</summary>
/// <param name="First">They, in order.</param>
/// <param name="Count">How many there are with the others.</param>
internal sealed record AuditList<T>(ImmutableArray<T> First, long Count);
