using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>
/// Orders runs that start at one second: by controller, output and zone, then by the schedule's name rather than its place,
/// so that moving a schedule about in its file moves no line of a timetable. What is watered by hand comes after all outputs.
/// </summary>
internal sealed class RunOrder
{
    private readonly Site _site;
    private readonly int[] _zoneRanks;
    private readonly int[] _scheduleRanks;

    public RunOrder(Site site)
    {
        _site = site;
        _zoneRanks = Ranks(site.Zones.OrderBy(zone => zone.Controller?.Index ?? int.MaxValue).ThenBy(zone => zone.Output).ThenBy(zone => zone.Index)
            .Select(zone => zone.Index));
        _scheduleRanks = Ranks(site.Schedules.OrderBy(schedule => schedule.Name, StringComparer.Ordinal).Select(schedule => schedule.Index));
    }

    public long RankOf(Zone zone, Schedule schedule) =>
        ((long)_zoneRanks[zone.Index] * _scheduleRanks.Length) + _scheduleRanks[schedule.Index];

    public Zone ZoneAt(int index) => _site.Zones[index];

    /// <summary>Index among the devices of an injector; -1 for none.</summary>
    public int IndexOfInjector(string? name) =>
        name is null ? -1 : _site.Devices.FirstOrDefault(device => device.Name == name)?.Index ?? -1;

    private static int[] Ranks(IEnumerable<int> indicesInOrder)
    {
        var order = indicesInOrder.ToArray();
        var ranks = new int[order.Length];
        for (var rank = 0; rank < order.Length; rank++) ranks[order[rank]] = rank;
        return ranks;
    }
}
