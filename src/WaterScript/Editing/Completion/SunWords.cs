using WaterScript.Calendars;
using WaterScript.Editing.Nights;
using WaterScript.Model;

namespace WaterScript.Editing.Completion;

/// <summary>When the sun rises and sets at a site.</summary>
internal static class SunWords
{
    /// <summary><c>20:29 on Mon 4 May 2026</c>, on the date of the next pass; empty where that is not known.</summary>
    public static string On(EditedSite site, SunEvent sunEvent)
    {
        ArgumentNullException.ThrowIfNull(site);
        if (site is not { Nights: { Site.Position: { } position } nights, Words: { } words }) return "";
        var day = nights.Next ?? CivilDate.DayNumberOf(nights.Today);
        return SunTimes.Of(position, new ZoneClock(nights.Site.TimeZone)).EventOn(day, sunEvent) is { } instant
            ? $"{words.Time(instant)} on {NightWords.Date(day)}"
            : "";
    }
}
