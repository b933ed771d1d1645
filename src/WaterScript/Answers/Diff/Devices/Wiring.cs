using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Answers.Diff.Written;
using WaterScript.Documents.Timetables;
using WaterScript.Model;

namespace WaterScript.Answers.Diff.Devices;

/// <summary>What a controller has to know beside when something opens: which output it is, how it is switched, what runs because of what.</summary>
internal static class Wiring
{
    /// <summary>The same lines for two sites whose devices do the same with the same openings, in whatever order they are written.</summary>
    /// <param name="site">The site.</param>
    /// <param name="names">What things are called in the other version; null for this one's own names.</param>
    public static ImmutableArray<string> Of(Site site, Renames? names)
    {
        ArgumentNullException.ThrowIfNull(site);
        string Name(string kind, string name) => names?.Of(kind, name) ?? name;
        var controllers = site.Controllers.Select(controller => Line($"{Name("controller", controller.Name)} stagger {controller.Stagger}"));
        var outputs = WiredOutput.AllOf(site).Select(wired => Line(
            $"{Name("controller", wired.Controller.Name)} {wired.Number} {NameOf(wired, Name)} {wired.IsLatching} {wired.Pulse}"));
        var devices = site.Devices.Select(device => Line(
            $"{KindOf(device)} {Name(KindOf(device), device.Name)} {device.StartsAfter} {device.StopsAfter} {device.Bridges} {device.After} {device.Rinse} ")
            + string.Join(' ', device.Zones.Select(zone => Name("zone", zone.Name)).Order(StringComparer.Ordinal)));
        return [.. controllers.Concat(outputs).Concat(devices).Order(StringComparer.Ordinal)];
    }

    /// <summary>The word for a kind of device.</summary>
    internal static string KindOf(Device device) => OpeningFields.WordOf(device.Kind);

    private static string NameOf(WiredOutput wired, Func<string, string, string> nameOf) =>
        wired.Zone is { } zone ? $"zone {nameOf("zone", zone.Name)}" : $"{KindOf(wired.Device!)} {nameOf(KindOf(wired.Device!), wired.Device!.Name)}";

    private static string Line(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
