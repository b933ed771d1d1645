using System.Collections.Immutable;
using System.Security.Cryptography;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Documents.Writers;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Text;

namespace WaterScript.Documents.Timetables.Deployed;

/// <summary>
/// Gathers from the description in a timetable what the site was called and had: its controllers, devices, zones and schedules by name, and the hash of all
/// of it. How a schedule finds its days and times is not read; the runs say that.
/// </summary>
internal sealed class DeployedSite : IDisposable
{
    private const decimal MostOutputs = int.MaxValue;

    /// <summary>In L/min: a number that a file may have, in the largest of its units.</summary>
    private const decimal MostFlow = 1_000 * Limits.MostNumber;

    private static readonly Unit LitresPerMinute = Units.Of(Dimension.Flow).First(unit => unit.Symbol == "L/min");

    private readonly IDateTimeZoneProvider _zones;
    private readonly Location _origin;
    private readonly SHA256 _sha = SHA256.Create();
    private readonly CryptoStream _stream;
    private readonly JsonWriter _json;
    private YamlMap? _site;
    private bool _hasZones;
    private bool _hasSchedules;
    private ImmutableArray<Controller> _controllers = [];
    private ImmutableArray<Device> _devices = [];
    private ImmutableArray<Zone> _zonesOfSite = [];
    private ImmutableArray<Schedule> _schedules = [];

    public DeployedSite(SourceText source, IDateTimeZoneProvider zones)
    {
        (_zones, _origin) = (zones, new Location(source, new TextSpan(0, 0)));
        _stream = new CryptoStream(Stream.Null, _sha, CryptoStreamMode.Write);
        _json = new JsonWriter(_stream, isIndented: false);
        _json.StartMap();
    }

    /// <summary>Takes in a part of the description.</summary>
    public void Take(string key, YamlNode node)
    {
        if (key == "site") node = SiteOf(node);
        _json.Key(key);
        node.Write(_json);
        switch (key)
        {
            case "controllers":
                _controllers = Items(node, key).Select((map, index) => new Controller { Index = index, Name = map.Needed("name"), Label = map.Text("label") })
                    .ToImmutableArray();
                Verify(node, _controllers.Select(controller => controller.Name));
                break;
            case "pumps":
                _devices = Items(node, key).Select(DeviceOf).ToImmutableArray();
                break;
            case "zones":
                _hasZones = true;
                _zonesOfSite = Items(node, key).Select(ZoneOf).ToImmutableArray();
                Verify(node, _zonesOfSite.Select(zone => zone.Name));
                break;
            case "schedules":
                _hasSchedules = true;
                _schedules = Items(node, key).Select(ScheduleOf).ToImmutableArray();
                Verify(node, _schedules.Select(schedule => schedule.Name));
                break;
        }
    }

    /// <summary>Version of the time-zone data that clock times were read with; null where it is not said.</summary>
    public string? TimeZoneData { get; private set; }

    /// <summary>What the description says of itself.</summary>
    public string? Hash { get; private set; }

    /// <summary>The site; its hash has to be that of the description.</summary>
    public Site Finish()
    {
        if (_site is null || !_hasZones || !_hasSchedules)
        {
            const string what = "this timetable has no description of the site, its zones and its schedules";
            throw new DeployedException(1, 1, what, "compile it with --to yaml and without --only");
        }

        _json.EndMap();
        _json.Dispose();
        _stream.Dispose();
        if (Convert.ToHexStringLower(_sha.Hash!) != Hash)
            throw YamlEvents.At(_site.Place, "the description of the site was changed after it was compiled: its sha256 is another", YamlEvents.CompileAnew);
        var zone = _site.Needed("timezone");
        return new Site
        {
            Name = _site.Needed("name"),
            Label = _site.Text("label"),
            Origin = _origin,
            TimeZoneData = _site.Text("timezone_data") ?? "",
            TimeZone = _zones.GetZoneOrNull(zone)
                ?? throw YamlEvents.At(_site.Place, $"no time zone is called {Quoted.Of(zone)}",
                "use a program with newer time zones, or " + YamlEvents.CompileAnew),
            Effective = DeployedMoments.TryDate(_site.Needed("effective"), out var day)
                ? CivilDate.FromDayNumber(day).ToLocalDate()
                : throw YamlEvents.At(_site.Place, "effective is not a date like 2026-05-01", YamlEvents.CompileAnew),
            Controllers = _controllers,
            Devices = _devices,
            Zones = _zonesOfSite,
            Schedules = _schedules,
        };
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _stream.Dispose();
        _sha.Dispose();
    }

    private YamlMap SiteOf(YamlNode node)
    {
        _site = Map(node, "site");
        Hash = _site.Needed("sha256");
        var described = new OrderedDictionary<string, YamlNode>(_site.Entries);
        described.Remove("sha256");
        TimeZoneData = _site.Text("timezone_data");
        described.Remove("sources_sha256");
        described.Remove("revision");
        return new YamlMap(node.Place, described);
    }

    private Device DeviceOf(YamlMap map, int index) => new()
    {
        Index = index,
        Kind = map.Needed("kind") switch
        {
            "pump" => DeviceKind.Pump,
            "master" => DeviceKind.Master,
            "injector" => DeviceKind.Injector,
            _ => throw YamlEvents.At(map.Place, "kind is not pump, master or injector", YamlEvents.CompileAnew)
        },
        Name = map.Needed("name"),
        Label = map.Text("label"),
        Origin = _origin,
        Controller = ControllerOf(map),
        WrittenOutput = OutputOf(map),
        FurtherOutputs = [.. FurtherOutputsOf(map)],
        Zones = [],
    };

    private Schedule ScheduleOf(YamlMap map, int index) => new()
    {
        Index = index,
        Name = map.Needed("name"),
        Label = map.Text("label"),
        IsManual = map.Flag("manual"),
        Origin = _origin,
        Steps = [],
    };

    private Zone ZoneOf(YamlMap map, int index) => new()
    {
        Index = index,
        Name = map.Needed("name"),
        Label = map.Text("label"),
        Origin = _origin,
        Controller = map.Flag("hand_watered") ? null : ControllerOf(map),
        WrittenOutput = OutputOf(map),
        Flow = map.Number("flow_l_per_min", MostFlow) is { } flow ? new Placed<Quantity>(new Quantity(flow, LitresPerMinute), _origin) : null,
        IsSpare = map.Flag("spare"),
    };

    private Placed<int>? OutputOf(YamlMap map) => map.Number("output", MostOutputs) is { } output ? new Placed<int>((int)output, _origin) : null;

    private IEnumerable<FurtherOutput> FurtherOutputsOf(YamlMap map) => map.Entries.TryGetValue("further_outputs", out var outputs)
        ? Items(outputs, "further_outputs").Select(output => new FurtherOutput(
            ControllerOf(output), OutputOf(output) ?? throw YamlEvents.At(output.Place, "output is missing", YamlEvents.CompileAnew)))
        : [];

    private Controller ControllerOf(YamlMap map)
    {
        var name = map.Needed("controller");
        return _controllers.FirstOrDefault(controller => controller.Name == name)
            ?? throw YamlEvents.At(map.Place, $"no controller is called {Quoted.Of(name)}", YamlEvents.CompileAnew);
    }

    private static IEnumerable<YamlMap> Items(YamlNode node, string key) =>
        (node as YamlList ?? throw YamlEvents.At(node.Place, $"{key} is not a list", YamlEvents.CompileAnew)).Items.Select(
            item => Map(item, $"an entry of {key}"));

    private static YamlMap Map(YamlNode node, string what) =>
        node as YamlMap ?? throw YamlEvents.At(node.Place, $"{what} is not a map", YamlEvents.CompileAnew);

    private static void Verify(YamlNode node, IEnumerable<string> names)
    {
        var known = new HashSet<string>(StringComparer.Ordinal);
        if (names.FirstOrDefault(name => !known.Add(name)) is { } twice)
            throw YamlEvents.At(node.Place, $"two are called {Quoted.Of(twice)}", YamlEvents.CompileAnew);
    }
}
