using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Simulation.Water;

/// <summary>What each zone gets over a timetable, added up run by run while the timetable streams past.</summary>
internal sealed class ZoneTotals
{
    private readonly Site _site;
    private readonly long[] _runs;
    private readonly long[] _seconds;

    /// <summary>Begins at nothing.</summary>
    public ZoneTotals(Site site)
    {
        ArgumentNullException.ThrowIfNull(site);
        _site = site;
        _runs = new long[site.Zones.Length];
        _seconds = new long[site.Zones.Length];
    }

    /// <summary>All runs added.</summary>
    public long Runs => _runs.Sum();

    /// <summary>Adds a run.</summary>
    public void Add(in Run run)
    {
        _runs[run.Zone]++;
        _seconds[run.Zone] += run.Seconds;
    }

    /// <summary>The total of each zone, in order of the file, also of those without a run.</summary>
    public IEnumerable<ZoneTotal> ByZone() =>
        _site.Zones.Select(zone => new ZoneTotal(zone, _runs[zone.Index], _seconds[zone.Index]));
}

/// <summary>What a zone gets.</summary>
/// <param name="Zone">The zone.</param>
/// <param name="Runs">Number of runs.</param>
/// <param name="Seconds">Their time in seconds.</param>
internal sealed record ZoneTotal(Zone Zone, long Runs, long Seconds)
{
    /// <summary>Water in litres, or null where the flow is not known.</summary>
    public decimal? Litres => Zone.LitresPerMinute * Seconds / 60;

    /// <summary>Depth of water in millimetres, before any loss, or null where the application rate is not known.</summary>
    public decimal? Millimetres => Zone.MillimetresPerHour * Seconds / 3600;
}
