using WaterScript.Agronomy;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Simulation.Water;

/// <summary>
/// How long each zone is watered on each date, gathered from runs. A run counts for the date that its pass belongs to, so that a night stays whole.
/// </summary>
internal sealed class WaterLedger(Site site)
{
    private readonly List<WateredDay>[] _days = [.. site.Zones.Select(_ => new List<WateredDay>())];
    private readonly Run?[] _firsts = new Run?[site.Zones.Length];

    /// <summary>Takes in the next run.</summary>
    public void Add(in Run run)
    {
        _firsts[run.Zone] ??= run;
        var days = _days[run.Zone];
        var at = days.Count;
        while (at > 0 && days[at - 1].Day > run.Day) at--;
        if (at > 0 && days[at - 1].Day == run.Day) days[at - 1] = days[at - 1] with { Seconds = days[at - 1].Seconds + run.Seconds };
        else days.Insert(at, new WateredDay(run.Day, run.Seconds));
    }

    /// <summary>The dates on which a zone is watered, in order.</summary>
    public IReadOnlyList<WateredDay> DaysOf(Zone zone) => _days[zone.Index];

    /// <summary>The first run of a zone, or null.</summary>
    public Run? FirstOf(Zone zone) => _firsts[zone.Index];

    /// <summary>Depth in mm that a zone's plants can use of so many seconds of watering; null where its application rate is not known.</summary>
    public static decimal? UsableDepth(Zone zone, decimal seconds) => zone.MillimetresPerHour * seconds * Uniformity.ShareThatCounts(zone) / 360_000;
}

/// <summary>A date on which a zone is watered.</summary>
/// <param name="Day">In days since 1970-01-01.</param>
/// <param name="Seconds">How long in all.</param>
internal readonly record struct WateredDay(int Day, long Seconds);
