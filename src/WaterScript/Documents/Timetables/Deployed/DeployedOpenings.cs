using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Documents.Timetables.Deployed;

/// <summary>
/// What a list that is deployed means for the zones of a site: when each is open. Of a list of switchings or openings nobody knows the schedule, and what
/// touches is one.
/// </summary>
internal sealed class DeployedOpenings
{
    /// <summary>Stands for a schedule that is not known.</summary>
    public const int NoSchedule = -1;

    private const string Anew = "give the site as it was when the list was compiled";

    private readonly DeployedList _list;
    private readonly ZoneClock _clock;
    private readonly Dictionary<string, int> _zones = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> _schedules = new(StringComparer.Ordinal);
    private readonly Dictionary<(string Controller, string Output), int?> _outputs = [];

    private DeployedOpenings(DeployedList list, Site site)
    {
        (_list, _clock) = (list, new ZoneClock(site.TimeZone));
        foreach (var zone in site.Zones)
        {
            _zones.TryAdd(zone.Name, zone.Index);
            if (zone.Controller is not null) _outputs.TryAdd(KeyOf(zone.Controller, zone.Output), zone.Index);
        }

        foreach (var device in site.Devices.SelectMany(device => device.ByOutput())) _outputs.TryAdd(KeyOf(device.Controller, device.Output), null);
        foreach (var schedule in site.Schedules) _schedules.TryAdd(schedule.Name, schedule.Index);
    }

    /// <summary>The openings of zones, in order.</summary>
    /// <exception cref="DeployedException">The list has a zone or an output that the site has not.</exception>
    public static ImmutableArray<Run> Of(DeployedList list, Site site)
    {
        ArgumentNullException.ThrowIfNull(list);
        ArgumentNullException.ThrowIfNull(site);
        var openings = new DeployedOpenings(list, site);
        var runs = list.Kind switch
        {
            TimetableList.Switchings => openings.OfSwitchings(),
            TimetableList.Openings => openings.OfOpenings(),
            _ => list.Rows.Select(openings.OfRun),
        };
        return [.. runs.OrderBy(run => run.Start).ThenBy(run => run.Zone)];
    }

    private static (string Controller, string Output) KeyOf(Controller controller, int output) =>
        (controller.Name, output.ToString(CultureInfo.InvariantCulture));

    private IEnumerable<Run> OfSwitchings()
    {
        var open = new Dictionary<(string, string), long>();
        foreach (var row in _list.Rows)
        {
            var output = (row.Controller, row.Field("output"));
            if (!_outputs.TryGetValue(output, out var zone))
                throw new DeployedException(row.Line, 1, $"the site has nothing at output {Quoted.Of(output.Item2)} of {Quoted.Of(output.Controller)}", Anew);
            if (zone is not { } index) continue;
            if (row.Field("do") == "open") open.TryAdd(output, row.At);
            else if (open.Remove(output, out var from) && row.At > from) yield return Opening(index, from, row.At);
        }
    }

    private IEnumerable<Run> OfOpenings()
    {
        foreach (var row in _list.Rows)
        {
            // A table has the kind and the name, a document the name under its kind.
            var name = row.Field("kind") == "zone" ? row.Field("name") : row.Field("zone");
            if (name.Length > 0) yield return Opening(ZoneOf(row, name), row.At, EndOf(row));
        }
    }

    private Run OfRun(DeployedListRow row)
    {
        if (!DeployedMoments.TryInstant(row.Field("pass_start"), out var passStart) || !DeployedMoments.TryDate(row.Field("day"), out var day))
            throw new DeployedException(row.Line, 1, "this run has no day or no pass_start", "compile it anew");
        var schedule = _schedules.GetValueOrDefault(row.Field("schedule"), NoSchedule);
        return new Run(0, row.At, EndOf(row), 0, ZoneOf(row, row.Field("zone")), schedule, day, 0, 0, passStart, Step: -1);
    }

    /// <summary>What begins after the dates of the list is of a pass that began within them.</summary>
    private Run Opening(int zone, long from, long to) =>
        new(0, from, to, 0, zone, NoSchedule, _clock.At(from).Day, 0, 0, Math.Clamp(from, _list.From, _list.Until - 1), Step: -1);

    private int ZoneOf(DeployedListRow row, string name) => _zones.TryGetValue(name, out var zone)
        ? zone
        : throw new DeployedException(row.Line, 1, $"the site has no zone {Quoted.Of(name)}", Anew);

    private static long EndOf(DeployedListRow row) => DeployedMoments.TryInstant(row.Field("to"), out var to) && to > row.At
        ? to
        : throw new DeployedException(row.Line, 1, "to is not a time after from", "compile it anew");
}
