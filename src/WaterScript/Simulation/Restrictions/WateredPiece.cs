namespace WaterScript.Simulation.Restrictions;

/// <summary>A run, or the part of it that lies on one local date.</summary>
/// <param name="Start">First second, in Unix seconds.</param>
/// <param name="End">The second after the last.</param>
/// <param name="Day">The date, in days since 1970-01-01.</param>
/// <param name="Zone">Index among the site's zones.</param>
/// <param name="Schedule">Index among the site's schedules.</param>
/// <param name="StartNumber">Number of the start that its pass was calculated from.</param>
/// <param name="PassDay">The date that its pass belongs to, in days since 1970-01-01.</param>
/// <param name="PassStart">Start of its pass, in Unix seconds.</param>
internal readonly record struct WateredPiece(long Start, long End, int Day, int Zone, int Schedule, int StartNumber, int PassDay, long PassStart);
