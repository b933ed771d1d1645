using WaterScript.Diagnostics;
using WaterScript.Documents.Verdicts;
using WaterScript.Linting.Engine;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Editing.Nights;

/// <summary>A site in one line, for the foot of a window.</summary>
/// <param name="Text">The line.</param>
/// <param name="Tooltip">The verdict of its check, in lines; empty while there is none.</param>
internal sealed record SiteStatus(string Text, string Tooltip)
{
    /// <summary>A site as it is known now.</summary>
    /// <param name="site">The site.</param>
    /// <param name="check">What checking it gave; null while that is not known.</param>
    public static SiteStatus Of(EditedSite site, CheckedSite? check)
    {
        ArgumentNullException.ThrowIfNull(site);
        var name = DisplayLine.CleanLine(site.Reading.Site?.DisplayName ?? site.Reading.Files[0].Source.Path);
        var errors = (check?.Findings ?? [.. site.Reading.Findings]).Count(finding => finding.Severity == Severity.Error);
        var tooltip = check is null ? "" : string.Join('\n', Verdict.Of(check).Select(DisplayLine.CleanLine));
        if (errors > 0) return new SiteStatus($"{name}: {Phrases.Count(errors, "error")}", tooltip);
        return new SiteStatus(check is null ? $"{name}: checking…" : $"{name}: {Next(site)}", tooltip);
    }

    /// <summary><c>next 20:59, 1701 L</c>, with the date where that is not today; <c>watering to 21:47</c>.</summary>
    private static string Next(EditedSite site)
    {
        if (site is not { Nights: { } nights, Words: { } words }) return "no timetable";
        if (nights.Next is not { } day) return $"no water before {MomentWords.Date(nights.LookedUntil)[4..]}";
        var runs = nights.RunsOn(day);
        if (runs.IsEmpty) return $"next {NightWords.ShortDay(day)}";
        if (runs.Where(run => run.Run.Start <= nights.Now && run.Run.End > nights.Now).ToList() is { Count: > 0 } open)
            return $"watering to {words.Time(PassEnd(runs, open[^1]))}";
        var coming = runs.Where(run => run.Run.Start > nights.Now).ToList();
        if (coming.Count == 0) return $"next {NightWords.ShortDay(day)}";
        var first = coming[0].Run.PassStart > nights.Now ? coming[0].Run.PassStart : coming[0].Run.Start;
        var date = words.DateAt(first) == nights.Today ? "" : $"{NightWords.ShortDay(day)} ";
        var litres = words.Litres(NightSums.Litres(coming, nights.Site)) is { } water ? ", " + water : "";
        return $"next {date}{words.Time(first)}{litres}";
    }

    private static long PassEnd(IEnumerable<NightRun> runs, NightRun open) => runs.Where(run => run.Run.IsInPassOf(open.Run)).Max(run => run.Run.End);
}
