using System.Globalization;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Editing.Nights;
using WaterScript.Model;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;
using WaterScript.Wording;

namespace WaterScript.Editing.Cards;

/// <summary>How often and how long a pump, a master valve or an injector is on.</summary>
internal static class DeviceSums
{
    private const int ShareOfCheck = 8;

    /// <summary>On the date of the next pass, and in its month.</summary>
    public static IEnumerable<string> Of(EditedSite site, Device device)
    {
        if (site is not { Nights: { Next: { } day } nights }) yield break;
        var date = CivilDate.FromDayNumber(day).ToLocalDate();
        var month = new LocalDate(date.Year, date.Month, 1);
        if (Openings(nights, device, new Horizon(date, date.PlusDays(1))) is { } night)
            yield return $"{NightWords.Date(day)}: {night}";
        if (Openings(nights, device, new Horizon(month, month.PlusMonths(1))) is { } all)
            yield return $"{CultureInfo.InvariantCulture.DateTimeFormat.GetAbbreviatedMonthName(date.Month)}: {all}";
    }

    private static string? Openings(SiteNights nights, Device device, Horizon horizon)
    {
        var (times, seconds) = (0, 0L);
        try
        {
            var timetable = Timetable.Of(nights.Site, horizon, new WorkBudget(Limits.CheckWorkOf(nights.Site.SourceLength) / ShareOfCheck));
            var on = new DeviceTimes(nights.Site);
            foreach (var opening in timetable.Openings().Where(opening => opening.Device == device.Index))
            {
                var (from, to, isStart) = on.Add(opening);
                (times, seconds) = (times + (isStart ? 1 : 0), seconds + to - from);
            }
        }
        catch (WorkUsedUpException)
        {
            return null;
        }

        return times == 0 ? "not on" : $"on {MomentWords.Times(times)}, {Phrases.Length(seconds)}";
    }
}
