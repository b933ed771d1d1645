using System.Globalization;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text.Lines;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Editing.Nights;

/// <summary>A date on which a site waters.</summary>
/// <param name="Day">The date, in days since 1970-01-01.</param>
/// <param name="Words">When and how much: <c>20:59 to 22:46:41, 1701 L</c>.</param>
internal sealed record NightChoice(int Day, string Words);

/// <summary>Lists of what a site waters.</summary>
internal static class NightList
{
    /// <summary>Dates to choose from.</summary>
    private const int MostDates = 60;

    private const int MostRuns = 2_000;

    /// <summary>The next dates with water; what would be more work than an answer may take is left out.</summary>
    public static IReadOnlyList<NightChoice> Coming(SiteNights nights, NightWords words)
    {
        ArgumentNullException.ThrowIfNull(nights);
        ArgumentNullException.ThrowIfNull(words);
        var byDay = new SortedDictionary<int, (long From, long To, decimal? Litres)>();
        var today = CivilDate.DayNumberOf(nights.Today);
        try
        {
            foreach (var run in Timetable.WithWhatIsUnderWay(nights.Site, Horizon.YearFrom(nights.Today), nights.Budget()).Runs()
                .Where(run => run.Day >= today))
            {
                if (byDay.Count > MostDates && run.Day > byDay.Keys.Last()) break;
                var litres = nights.Site.Zones[run.Zone].LitresPerMinute * run.Seconds / 60;
                byDay[run.Day] = byDay.TryGetValue(run.Day, out var known)
                    ? (known.From, Math.Max(known.To, run.End), known.Litres + litres)
                    : (run.Start, run.End, litres);
            }
        }
        catch (WorkUsedUpException)
        {
            // Of the last date, and of what may begin before it, not all is known.
            foreach (var day in byDay.Keys.TakeLast(2).ToList()) byDay.Remove(day);
        }

        return
        [
            .. byDay.Take(MostDates).Select(night => new NightChoice(night.Key,
                words.Span(night.Value.From, night.Value.To) + (words.Litres(night.Value.Litres) is { } water ? ", " + water : ""))),
        ];
    }

    /// <summary>Writes what runs in the passes of a date, a line a run, in order of start.</summary>
    public static void Write(SiteNights nights, NightWords words, int day, PlainLines lines)
    {
        ArgumentNullException.ThrowIfNull(nights);
        ArgumentNullException.ThrowIfNull(words);
        ArgumentNullException.ThrowIfNull(lines);
        var (site, runs) = (nights.Site, nights.RunsOn(day));
        lines.Line($"{site.DisplayName}, passes of {NightWords.Date(day)}, {site.TimeZone.Id}");
        if (runs.IsEmpty) lines.Line("nothing is watered");
        string[][] rows = [.. runs.Take(MostRuns).Select(run => Row(run, site, words))];
        int[] widths = [.. Enumerable.Range(0, rows.Length == 0 ? 0 : rows[0].Length).Select(column => rows.Max(row => row[column].Length))];
        foreach (var row in rows) lines.Line(string.Join("  ", row.Select((cell, column) => cell.PadRight(widths[column]))).TrimEnd());
        if (runs.Length > MostRuns) lines.Line(string.Create(CultureInfo.InvariantCulture, $"… and {runs.Length - MostRuns} more"));
    }

    private static string[] Row(NightRun run, Site site, NightWords words)
    {
        var zone = site.Zones[run.Run.Zone];
        return
        [
            words.Span(run.Run.Start, run.Run.End), zone.DisplayName, Phrases.Length(run.Run.Seconds),
            words.Litres(zone.LitresPerMinute * run.Run.Seconds / 60) ?? "",
            $"{site.Schedules[run.Run.Schedule].Name}, step {run.Path} ({SiteWords.Place(run.Step.Origin)})",
        ];
    }
}
