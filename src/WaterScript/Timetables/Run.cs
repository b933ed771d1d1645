namespace WaterScript.Timetables;

/// <summary>A zone is watered: what was asked for, before anything that the hardware adds.</summary>
/// <param name="Number">Place in the timetable's runs, from 1.</param>
/// <param name="Start">First second, in Unix seconds.</param>
/// <param name="End">The second after the last, in Unix seconds; above <paramref name="Start"/>.</param>
/// <param name="Overlap">Seconds that its valve stays open after the end, while the next one on its supply opens.</param>
/// <param name="Zone">Index among the site's zones.</param>
/// <param name="Schedule">Index among the site's schedules.</param>
/// <param name="Day">The date that the pass belongs to, in days since 1970-01-01.</param>
/// <param name="StartNumber">Number of the start that the pass was calculated from, from 1; 0 for a manual one.</param>
/// <param name="Pass">Number of the pass among those of its date and start, from 1.</param>
/// <param name="PassStart">Start of the pass, in Unix seconds; a pass that begins with a pause starts before its first run.</param>
/// <param name="Step">Index among the schedule's step paths.</param>
/// <param name="Injector">Index among the site's devices of the injector that doses; -1 for none.</param>
/// <param name="Soak">Seconds that the zone is to soak afterwards; 0 outside of a cycle.</param>
/// <param name="Dose">
/// Seconds of a dose that has a size of its own; -1 where that does not fit, so that nothing is dosed; 0 where the injector doses until its rinse.
/// </param>
internal readonly record struct Run(
    long Number,
    long Start,
    long End,
    long Overlap,
    int Zone,
    int Schedule,
    int Day,
    int StartNumber,
    int Pass,
    long PassStart,
    int Step,
    int Injector = -1,
    long Soak = 0,
    long Dose = 0)
{
    /// <summary>How long it lasts, in seconds.</summary>
    public long Seconds => End - Start;

    /// <summary>Whether another run is of the same pass.</summary>
    public bool IsInPassOf(in Run other) =>
        Schedule == other.Schedule && Day == other.Day && StartNumber == other.StartNumber && Pass == other.Pass;
}
