using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Documents.Charts;

/// <summary>Watering that is due and does not come, because of a hold, a closed season or a <c>cut off at</c> line.</summary>
/// <param name="From">First second, in Unix seconds.</param>
/// <param name="Until">The second after the last.</param>
/// <param name="Zone">The zone.</param>
/// <param name="Schedule">The schedule.</param>
/// <param name="Pass">Where its pass starts, in Unix seconds.</param>
/// <param name="Day">The date that its pass belongs to, in days since 1970-01-01.</param>
/// <param name="Step">The path of its step.</param>
/// <param name="Place">Where its step is written.</param>
/// <param name="Cause">Where the cause is written.</param>
/// <param name="Because">The cause in words: the reason that the file gives.</param>
internal sealed record ChartHeld(
    long From, long Until, Zone Zone, Schedule Schedule, long Pass, int Day, string Step, Location Place, Location Cause, string Because);
