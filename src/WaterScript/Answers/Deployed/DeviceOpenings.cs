using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Documents.Timetables;
using WaterScript.Documents.Timetables.Deployed;
using WaterScript.Model;

namespace WaterScript.Answers.Deployed;

/// <summary>What a list opens, and when.</summary>
/// <param name="Name">What people read.</param>
/// <param name="Output">Its output, and the controller where there are several; empty where the list has none.</param>
/// <param name="Zone">The zone that it is; null for a pump and the like, and where the site has none there.</param>
internal sealed record OpenedDevice(string Name, string Output, Zone? Zone);

/// <summary>Something is open.</summary>
/// <param name="Device">What it is.</param>
/// <param name="From">From when, in Unix seconds.</param>
/// <param name="To">Until when.</param>
internal readonly record struct DeviceOpening(OpenedDevice Device, long From, long To);

/// <summary>The openings of a list by what they open, whatever kind of list it is.</summary>
/// <param name="site">The site that says what is at an output.</param>
internal sealed class DeviceOpenings(Site site)
{
    private static readonly string[] Kinds = ["zone", "pump", "master", "injector"];

    private readonly Dictionary<string, OpenedDevice> _devices = new(StringComparer.Ordinal);

    /// <summary>Those of a list, in order of their beginning.</summary>
    public ImmutableArray<DeviceOpening> Of(DeployedList list)
    {
        ArgumentNullException.ThrowIfNull(list);
        var openings = list.Kind == TimetableList.Switchings ? OfSwitchings(list) : list.Rows.Select(OfRow).OfType<DeviceOpening>();
        return [.. openings.OrderBy(opening => opening.From).ThenBy(opening => opening.Device.Name, StringComparer.Ordinal)];
    }

    private IEnumerable<DeviceOpening> OfSwitchings(DeployedList list)
    {
        var open = new Dictionary<(string, string), long>();
        foreach (var row in list.Rows)
        {
            var output = (row.Controller, row.Field("output"));
            if (row.Field("do") == "open") open.TryAdd(output, row.At);
            else if (open.Remove(output, out var from) && row.At > from) yield return new DeviceOpening(At(row), from, row.At);
        }
    }

    private DeviceOpening? OfRow(DeployedListRow row)
    {
        if (!DeployedMoments.TryInstant(row.Field("to"), out var to) || to <= row.At) return null;
        // A table has the kind and the name, a document the name under its kind; of runs only a table has outputs, which are not asked.
        var isRun = row.Field("schedule").Length > 0;
        if (!isRun && row.Field("output") is { Length: > 0 } and not "0") return new DeviceOpening(At(row), row.At, to);
        var kind = row.Field("kind") is { Length: > 0 } written ? written : Kinds.FirstOrDefault(kind => row.Field(kind).Length > 0) ?? "zone";
        return new DeviceOpening(Named(kind, row.Field("kind").Length > 0 ? row.Field("name") : row.Field(kind)), row.At, to);
    }

    private OpenedDevice At(DeployedListRow row)
    {
        var key = $"{row.Controller}\n{row.Field("output")}";
        return _devices.TryGetValue(key, out var known) ? known : _devices[key] = Found(row.Controller, row.Field("output"));
    }

    private OpenedDevice Found(string controller, string output)
    {
        var words = site.Controllers.Length > 1 && controller.Length > 0 ? $"{output} of {controller}" : output;
        bool Is(Controller? own, int number) => own is not null && own.Name == controller && number.ToString(CultureInfo.InvariantCulture) == output;
        if (site.Zones.FirstOrDefault(zone => Is(zone.Controller, zone.Output)) is { } zone) return new OpenedDevice(zone.DisplayName, words, zone);
        var device = site.Devices.SelectMany(device => device.ByOutput()).FirstOrDefault(device => Is(device.Controller, device.Output));
        return new OpenedDevice(device?.DisplayName ?? "nothing of the file", words, Zone: null);
    }

    private OpenedDevice Named(string kind, string name)
    {
        var key = $"{kind}\n\n{name}";
        if (_devices.TryGetValue(key, out var known)) return known;
        var zone = kind == "zone" ? site.Zones.FirstOrDefault(zone => zone.Name == name) : null;
        var device = kind == "zone" ? null : site.Devices.FirstOrDefault(device => device.Name == name);
        return _devices[key] = new OpenedDevice(zone?.DisplayName ?? device?.DisplayName ?? name, "", zone);
    }
}
