using System.Collections.ObjectModel;
using NodaTime;
using NodaTime.TimeZones;
using NodaTime.Utility;

namespace WaterScript.Calendars.TimeZones;

/// <summary>
/// The time zones of the Noda Time package, the same on every machine, each read when it is asked for. What needs all of them, and what is not found, is
/// asked of the package itself.
/// </summary>
internal sealed class PackagedTimeZones : IDateTimeZoneProvider
{
    private const string File = "NodaTime.TimeZones.Tzdb.nzd";

    private readonly ZonePack? _pack;
    private readonly Dictionary<string, DateTimeZone> _known = new(StringComparer.Ordinal);

    /// <summary>Makes a provider.</summary>
    /// <param name="pack">The file; null where its form is not known.</param>
    public PackagedTimeZones(ZonePack? pack) => _pack = pack;

    /// <summary>The time zones of the package.</summary>
    public static PackagedTimeZones Provider { get; } = new(Pack());

    /// <inheritdoc/>
    public string VersionId => _pack is null ? All.VersionId : $"TZDB: {_pack.Version}";

    /// <inheritdoc/>
    public ReadOnlyCollection<string> Ids => All.Ids;

#pragma warning disable RS0030 // The data is a part of the Noda Time package, the same on every machine.
    private static IDateTimeZoneProvider All => DateTimeZoneProviders.Tzdb;
#pragma warning restore RS0030

    /// <inheritdoc/>
    public DateTimeZone this[string id] => GetZoneOrNull(id) ?? All[id];

    /// <inheritdoc/>
    public DateTimeZone GetSystemDefault() => All.GetSystemDefault();

    /// <inheritdoc/>
    public DateTimeZone? GetZoneOrNull(string id)
    {
        ArgumentNullException.ThrowIfNull(id);
        lock (_known)
        {
            if (!_known.TryGetValue(id, out var zone) && (zone = FromPack(id) ?? All.GetZoneOrNull(id)) is not null) _known[id] = zone;
            return zone;
        }
    }

    private DateTimeZone? FromPack(string id)
    {
        try
        {
            return _pack?.FileOf(id) is { } file ? TzdbDateTimeZoneSource.FromStream(file).ForId(id) : null;
        }
        catch (Exception problem) when (problem is InvalidNodaDataException or ArgumentException or IOException)
        {
            return null;
        }
    }

    private static ZonePack? Pack()
    {
#pragma warning disable RS0030 // What lies in a library under a name is there ahead of time too.
        using var stream = typeof(TzdbDateTimeZoneSource).Assembly.GetManifestResourceStream(File);
#pragma warning restore RS0030
        if (stream is null) return null;
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return ZonePack.Of(bytes);
    }
}
