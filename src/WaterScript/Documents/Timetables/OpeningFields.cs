using WaterScript.Calendars;
using WaterScript.Documents.Writers;
using WaterScript.Model;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Documents.Timetables;

/// <summary>What the outputs say of an opening, in the forms in which all of them say it. Holds one opening at a time.</summary>
internal sealed class OpeningFields(Site site)
{
    private readonly Timestamps _timestamps = new(new ZoneClock(site.TimeZone));
    private readonly byte[] _from = new byte[Timestamps.Longest];
    private readonly byte[] _to = new byte[Timestamps.Longest];
    private int _fromLength;
    private int _toLength;

    /// <summary>The opening.</summary>
    public Opening Opening { get; private set; }

    /// <summary>Its beginning.</summary>
    public ReadOnlySpan<byte> From => _from.AsSpan(0, _fromLength);

    /// <summary>Its end.</summary>
    public ReadOnlySpan<byte> To => _to.AsSpan(0, _toLength);

    /// <summary>Its controller.</summary>
    public Controller Controller => site.Controllers[Opening.Controller];

    /// <summary>Its output, or null where none is wired.</summary>
    public long? Output => Opening.Output > 0 ? Opening.Output : null;

    /// <summary>What is on.</summary>
    public string Kind => Opening.Zone >= 0 ? "zone" : WordOf(site.Devices[Opening.Device].Kind);

    /// <summary>Name of the zone or device.</summary>
    public string Name => Opening.Zone >= 0 ? site.Zones[Opening.Zone].Name : site.Devices[Opening.Device].Name;

    /// <summary>Takes up an opening.</summary>
    public void Take(in Opening opening)
    {
        Opening = opening;
        _fromLength = _timestamps.Instant(opening.From, _from).Length;
        _toLength = _timestamps.Instant(opening.To, _to).Length;
    }

    /// <summary>What the outputs call a kind of device.</summary>
    public static string WordOf(DeviceKind kind) => kind switch
    {
        DeviceKind.Pump => "pump",
        DeviceKind.Master => "master",
        _ => "injector",
    };
}
