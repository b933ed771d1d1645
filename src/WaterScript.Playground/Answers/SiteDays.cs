using System.Text;
using NodaTime;
using NodaTime.Text;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Pages;
using WaterScript.Editing.Nights;
using WaterScript.Model;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Playground.Answers;

/// <summary>What a site waters on some days, from the next watering on, or from a date that somebody picked.</summary>
/// <param name="site">The site.</param>
internal sealed class SiteDays(OpenSite site)
{
    private const int MostRows = 300;
    private const int MostDays = 31;
    private const int Noon = 12 * 60 * 60;

    /// <summary>A picture; null where the site has errors or no watering by a calendar.</summary>
    public ChartAnswer? Chart(PageQuestion asked)
    {
        if (site.Check is not { Lint: { } lint } || site.Edited is not { Nights: { } nights } || FirstOf(asked, nights) is not { } first) return null;
        var span = new ChartSpan(first, Math.Clamp(asked.Days, 1, MostDays));
        using var svg = new MemoryStream();
        SvgChart.Write(Compilation.ChartOf(nights.Site, lint, span), svg);
        return new ChartAnswer(LocalDatePattern.Iso.Format(first), span.Days, Encoding.UTF8.GetString(svg.ToArray()));
    }

    /// <summary>The runs of some days; null where the site has errors or no watering by a calendar.</summary>
    public TimetableAnswer? Timetable(PageQuestion asked)
    {
        if (site.Edited is not { Nights: { } nights, Words: { } words } || FirstOf(asked, nights) is not { } first) return null;
        var days = Math.Clamp(asked.Days, 1, MostDays);
        var budget = new WorkBudget(Limits.CheckWorkOf(nights.Site.SourceLength));
        var timetable = Timetables.Timetable.Of(nights.Site, new Horizon(first, first.PlusDays(days)), budget);
        var rows = timetable.Runs().Take(MostRows + 1).Select(run => RowOf(run, nights.Site, words)).ToList();
        return new TimetableAnswer(LocalDatePattern.Iso.Format(first), days, [.. rows.Take(MostRows)], rows.Count > MostRows);
    }

    private static RowAnswer RowOf(Run run, Site model, NightWords words)
    {
        var zone = model.Zones[run.Zone];
        return new RowAnswer(MomentWords.Date(words.DateAt(run.Start)), words.Span(run.Start, run.End), zone.DisplayName, Phrases.Length(run.Seconds),
            words.Amount(zone, run.Seconds), model.Schedules[run.Schedule].DisplayName);
    }

    /// <summary>The date that somebody picked; else that at whose noon the day of the next watering begins.</summary>
    private static LocalDate? FirstOf(PageQuestion asked, SiteNights nights)
    {
        if (asked.First is { } text)
        {
            return LocalDatePattern.Iso.Parse(text) is { Success: true, Value: { Year: >= 1 and <= 9000 } date }
                ? date
                : throw new QuestionException("This is not a date.");
        }

        if (nights.Next is not { } day || nights.RunsOn(day) is not [var next, ..]) return ChartSpan.FromFirstWater(nights.Site, 1)?.First;
        var at = new ZoneClock(nights.Site.TimeZone).At(next.Run.Start);
        return CivilDate.FromDayNumber(at.SecondOfDay < Noon ? at.Day - 1 : at.Day).ToLocalDate();
    }
}
