using WaterScript.Documents.Timetables;
using WaterScript.Timetables;

namespace WaterScript.Answers.Next;

/// <summary>An outlook for programs.</summary>
public static class OutlookJson
{
    /// <summary>Writes it.</summary>
    /// <param name="outlook">The outlook.</param>
    /// <param name="output">Stays open.</param>
    public static void Write(Outlook outlook, Stream output)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        SiteJson.Write("waterscript_next", outlook.Site, output, document =>
        {
            document.Moment("at", outlook.At);
            document.Maps("open", outlook.Open, open => Write(open, outlook.At, document));
            document.Maps("on", outlook.On, on => Write(on, outlook.At, document));
            document.Maps("kept_shut", outlook.Shut, shut => Write(shut, document));
            document.Maps("not_allowed", outlook.NotAllowed, ban => Write(ban, document));
            document.Maps("coming", outlook.Coming, coming => Write(coming, document));
        });
    }

    /// <summary>The word for what takes watering away.</summary>
    internal static string WordOf(SkipCause by) => by switch
    {
        SkipCause.Hold => "hold",
        SkipCause.ClosedSeason => "closed",
        SkipCause.Cut => "cut",
        _ => "scale",
    };

    private static void Write(OpenNow open, long now, SiteJson document)
    {
        document.Json.Entry("zone", open.Zone.Name);
        document.Json.Entry("schedule", open.Schedule.Name);
        document.Json.Entry("pass", open.Pass);
        document.Json.Entry("step", open.Step);
        document.Moment("from", open.From);
        document.Moment("to", open.Until);
        document.Json.Entry("seconds_left", open.Until - now);
        document.Place("place", open.Origin);
    }

    private static void Write(DeviceOnNow on, long now, SiteJson document)
    {
        document.Json.Entry(OpeningFields.WordOf(on.Device.Kind), on.Device.Name);
        document.Moment("from", on.From);
        document.Moment("to", on.Until);
        document.Json.Entry("seconds_left", on.Until - now);
        document.Place("place", on.Device.Origin);
    }

    private static void Write(NotAllowed ban, SiteJson document)
    {
        document.Json.Entry("restriction", ban.Restriction.Name);
        document.Json.List("zones", ban.Zones, zone => document.Json.Text(zone.Name));
        document.Moment("from", ban.From);
        document.Moment("until", ban.Until);
        document.Place("place", ban.Origin);
    }

    private static void Write(KeptShut shut, SiteJson document)
    {
        document.Json.Entry("by", WordOf(shut.By));
        if (!shut.Zones.IsEmpty) document.Json.List("zones", shut.Zones, zone => document.Json.Text(zone.Name));
        document.Moment("until", shut.Until);
        document.Json.Entry("because", shut.Because);
        document.Place("place", shut.Origin);
    }

    private static void Write(ComingWatering coming, SiteJson document)
    {
        document.Json.Entry("schedule", coming.Schedule.Name);
        document.Date("day", coming.Day);
        document.Json.EntryIf("rest_of_pass", coming.IsRest);
        document.Moment("first", coming.First);
        document.Moment("last", coming.Last);
        document.Json.Entry("passes", coming.Passes);
        if (coming.Passes > 1) document.Json.Entry("every_s", coming.Every);
        document.Maps("waterings", coming.Waterings, watering =>
        {
            document.Json.Entry("zone", watering.Zone.Name);
            document.Json.Entry("seconds", watering.Seconds);
        });
    }
}
