using NodaTime;
using WaterScript.Answers.Advise;
using WaterScript.Answers.Next;
using WaterScript.Answers.Why;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Text.Lines;
using WaterScript.Timetables;

namespace WaterScript.Fuzz.Stages;

/// <summary>What waters now and next, why a zone does on a date, and what plants need.</summary>
internal sealed class AnswerStage : IStage
{
    private const int MostComing = 8;
    private const int PageDates = 3;

    public string Name => "next, why, advise";

    public bool Run(SiteInHand site, SiteInHand original)
    {
        if (site.Sound is not { } sound) return false;
        try
        {
            Ask(site, sound);
            return true;
        }
        catch (WorkUsedUpException cause)
        {
            Must.Hold(AnswerCut.Words(sound, cause).Contains(ReadingRules.OverLimit.Slug, StringComparison.Ordinal),
                "a site that is too large for an answer is reported so");
            return false;
        }
    }

    private const int FuzzZones = 4;

    private static void Ask(SiteInHand site, Site sound)
    {
        Next(site, sound);
        foreach (var zone in sound.Zones.Where((_, index) => index % FuzzZones == site.Salt % FuzzZones)) Why(site, sound, zone);
        var advice = WateringAdvice.Of(sound, site.Salt % 2 == 0 ? null : site.Horizon.From);
        CheckStage.IsJson(stream => AdviceJson.Write(advice, stream), "advice in JSON is JSON");
        Must.Hold(AdviceTable.Of(advice).Length > 0, "advice is put in words");
    }

    private static void Next(SiteInHand site, Site sound)
    {
        var first = site.Timetable.Runs().Take(1 + site.Salt).LastOrDefault();
        var now = first.End > 0 ? first.Start + (site.Salt % 3) - 1 : sound.Effective.AtStartOfDayInZone(sound.TimeZone).ToInstant().ToUnixTimeSeconds();
        var outlook = Outlook.Of(sound, Instant.FromUnixTimeSeconds(now), MostComing);
        Must.Hold(outlook.Coming.Length <= MostComing, "no more is coming than was asked for");
        Must.Hold(outlook.Coming.All(coming => coming.First > now || coming.IsRest), "what is coming lies ahead");
        Must.Hold(outlook.Open.All(open => open.From <= now && open.Until > now), "what is open is open now");
        var expected = Timetable.Of(sound, Horizon.DaysFrom(Instant.FromUnixTimeSeconds(now).InZone(sound.TimeZone).Date, 2)).Runs()
            .Where(run => run.Start > now).Select(run => (long?)run.Start).FirstOrDefault();
        if (expected is { } start) Must.Hold(outlook.Coming.Any(coming => coming.First <= start), "the next run is coming", $"{start}");
        CheckStage.IsJson(stream => OutlookJson.Write(outlook, stream), "an outlook in JSON is JSON");
        Must.Hold(CheckStage.Written(stream => PlainLines.WriteTo(stream, lines => OutlookText.Write(outlook, lines))).Length > 0,
            "an outlook is put in words");
        Page(sound, now);
    }

    /// <summary>A page of the dates to come has each of them, and what waters on it.</summary>
    private static void Page(Site sound, long now)
    {
        var outlook = Outlook.Of(sound, Instant.FromUnixTimeSeconds(now), MostComing, PageDates);
        var page = CheckStage.Written(stream => MarkdownLines.WriteTo(stream, lines => OutlookMarkdown.Write(outlook, MostComing, lines)));
        Must.Hold(page.Split("\n### ").Length == PageDates + 1, "a page has each of its dates");
        Must.Hold(outlook.NotWatered.All(not => not.Date < outlook.LookedUntil), "what does not come is of those dates");
    }

    private static void Why(SiteInHand site, Site sound, Zone zone)
    {
        var date = site.Horizon.From.PlusDays(site.Salt);
        var answer = DayAnswer.Of(sound, zone, date);
        var from = zone.Controller is null ? 0 : date.AtStartOfDayInZone(sound.TimeZone).ToInstant().ToUnixTimeSeconds();
        var to = date.PlusDays(1).AtStartOfDayInZone(sound.TimeZone).ToInstant().ToUnixTimeSeconds();
        var meant = Timetable.Of(sound, new Horizon(date.PlusDays(-3), date.PlusDays(3))).Runs()
            .Count(run => run.Zone == zone.Index && run.Start >= from && run.Start < to);
        var said = answer.Waterings.Count(watering => watering.From >= from && watering.From < to);
        Must.Hold(said >= meant, "a watering of a date is explained", $"{zone.Name} on {date}: {meant} meant, {said} said");
        CheckStage.IsJson(stream => DayAnswerJson.Write(answer, stream), "an answer in JSON is JSON");
        Must.Hold(CheckStage.Written(stream => PlainLines.WriteTo(stream, lines => DayAnswerText.Write(answer, lines))).Length > 0,
            "an answer is put in words");
    }
}
