using WaterScript.Timetables;

namespace WaterScript.Comparison;

/// <summary>An outlook for programs.</summary>
public static class OutlookJson
{
    private const int Version = 1;

    /// <summary>Writes it.</summary>
    /// <param name="outlook">The outlook.</param>
    /// <param name="output">Stays open.</param>
    public static void Write(Outlook outlook, Stream output)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        using var document = new SiteJson(outlook.Site, output);
        var json = document.Json;
        json.Map(() =>
        {
            json.Entry("waterscript_next", Version);
            json.Entry("site", outlook.Site.Name);
            document.Moment("at", outlook.At);
            document.Maps("open", outlook.Open, open => Write(open, outlook.At, document));
            document.Maps("kept_shut", outlook.Shut, shut => Write(shut, document));
            document.Maps("coming", outlook.Coming, coming => Write(coming, document));
        });
    }

    /// <summary>The word for what takes watering away.</summary>
    internal static string WordOf(TakenBy by) => by switch
    {
        TakenBy.Hold => "hold",
        TakenBy.ClosedSeason => "closed",
        TakenBy.Cut => "cut",
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
