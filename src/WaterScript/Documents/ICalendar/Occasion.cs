namespace WaterScript.Documents.ICalendar;

/// <summary>Something that an event shows: a pass, a step of one, or the passes of a date.</summary>
/// <param name="Start">First second, in Unix seconds.</param>
/// <param name="End">The second after the last; above <paramref name="Start"/>.</param>
/// <param name="Day">The date that it belongs to, in days since 1970-01-01.</param>
/// <param name="Key">What it is, the same on every date.</param>
/// <param name="Content">Index among the schedule's contents: what its event says.</param>
/// <param name="IsWhole">Whether it runs as planned, nothing taken.</param>
internal readonly record struct Occasion(long Start, long End, int Day, OccasionKey Key, int Content, bool IsWhole);

/// <summary>What an occasion is.</summary>
/// <param name="StartNumber">Number of the start; 0 for a manual pass or a whole date.</param>
/// <param name="Pass">Number of the pass; 0 for a whole date.</param>
/// <param name="Step">Index of the step; -1 for all of them.</param>
internal readonly record struct OccasionKey(int StartNumber, int Pass, int Step);
