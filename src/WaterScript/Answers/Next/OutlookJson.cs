using WaterScript.Documents.Reports;
using WaterScript.Documents.Writers;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Next;

/// <summary>An outlook for programs.</summary>
internal static class OutlookJson
{
    /// <summary>Writes it.</summary>
    /// <param name="outlook">The outlook.</param>
    /// <param name="output">Stays open.</param>
    public static void Write(Outlook outlook, Stream output)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        JsonDocuments.Write(output, Of(outlook, new SiteMoments(outlook.Site)), new OutlookContext(JsonDocuments.Options()).OutlookDocument);
    }

    /// <summary>The word for what takes watering away.</summary>
    internal static string WordOf(SkipCause by) => by switch
    {
        SkipCause.Hold => "hold",
        SkipCause.ClosedSeason => "closed",
        SkipCause.Cut => "cut",
        SkipCause.Restriction => "restriction",
        _ => "scale",
    };

    private static OutlookDocument Of(Outlook outlook, SiteMoments moments) => new()
    {
        Site = outlook.Site.Name,
        TimeZoneData = outlook.Site.TimeZoneData,
        At = moments.At(outlook.At),
        Open = outlook.Open.Select(open => Of(open, outlook.At, moments)),
        On = outlook.On.Select(on => Of(on, outlook.At, moments)),
        KeptShut = outlook.Shut.Select(shut => Of(shut, moments)),
        NotAllowed = outlook.NotAllowed.Select(ban => Of(ban, moments)),
        Coming = outlook.Coming.Select(coming => Of(coming, moments)),
    };

    private static OpenItem Of(OpenNow open, long now, SiteMoments moments) => new()
    {
        Zone = open.Zone.Name,
        Schedule = open.Schedule.Name,
        Pass = open.Pass,
        Step = open.Step,
        From = moments.At(open.From),
        To = moments.At(open.Until),
        SecondsLeft = open.Until - now,
        Place = new PlaceItem(open.Origin),
    };

    private static OnItem Of(DeviceOnNow on, long now, SiteMoments moments) => new()
    {
        Pump = NameIf(on.Device, DeviceKind.Pump),
        Master = NameIf(on.Device, DeviceKind.Master),
        Injector = NameIf(on.Device, DeviceKind.Injector),
        From = moments.At(on.From),
        To = moments.At(on.Until),
        SecondsLeft = on.Until - now,
        Place = new PlaceItem(on.Device.Origin),
    };

    private static string? NameIf(Device device, DeviceKind kind) => device.Kind == kind ? device.Name : null;

    private static BanItem Of(NotAllowed ban, SiteMoments moments) => new()
    {
        Restriction = ban.Restriction.Name,
        Zones = ban.Zones.Select(zone => zone.Name),
        From = moments.At(ban.From),
        Until = moments.At(ban.Until),
        Place = new PlaceItem(ban.Origin),
    };

    private static ShutItem Of(KeptShut shut, SiteMoments moments) => new()
    {
        By = WordOf(shut.By),
        Zones = shut.Zones.IsEmpty ? null : shut.Zones.Select(zone => zone.Name),
        Until = moments.At(shut.Until),
        Because = shut.Because,
        Place = new PlaceItem(shut.Origin),
    };

    private static ComingItem Of(ComingWatering coming, SiteMoments moments) => new()
    {
        Schedule = coming.Schedule.Name,
        Day = moments.Date(coming.Day),
        RestOfPass = coming.IsRest ? true : null,
        First = moments.At(coming.First),
        Last = moments.At(coming.Last),
        Passes = coming.Passes,
        EverySeconds = coming.Passes > 1 ? coming.Every : null,
        Waterings = coming.Waterings.Select(watering => new ComingZoneItem { Zone = watering.Zone.Name, Seconds = watering.Seconds }),
    };
}
