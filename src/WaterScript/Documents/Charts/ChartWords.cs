using NodaTime;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts;

/// <summary>The texts around the drawings, the same in documents and in pages.</summary>
internal static class ChartWords
{
    /// <summary><c>Balcony: watering</c></summary>
    internal static string Title(Chart chart) => $"{chart.Site.DisplayName}: watering";

    /// <summary>When, by which clocks, and how much in all: <c>Mon 18 May 2026 12:00 to Tue 19 May 2026 12:00, Europe/Vienna. 4 runs, …</c></summary>
    public static string Summary(Chart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        var (first, last) = (chart.Days[0].Date, chart.Days[^1].Date.PlusDays(1));
        return $"{MomentWords.Date(first)} 12:00 to {MomentWords.Date(last)} 12:00, {chart.Site.TimeZone.Id}. " +
            $"{Amounts(chart.Days.SelectMany(day => day.Runs))}";
    }

    /// <summary>The heading of a day.</summary>
    internal static string Heading(ChartDay day) => $"{Short(day.Date)} to {MomentWords.Date(day.Date.PlusDays(1))}";

    /// <summary>How much water: <c>5 runs, 52 min of water, 21 L</c>.</summary>
    internal static string Amounts(IEnumerable<ChartRun> runs)
    {
        var all = runs.ToList();
        if (all.Count == 0) return "No water.";
        var litres = all.Sum(run => run.Litres ?? 0);
        var isWhole = all.TrueForAll(run => run.Litres is not null);
        var water = litres == 0 ? "" : $", {all[0].Says.Say(litres, digits: 0)}{(isWhole ? "" : " where the flow is known")}";
        return $"{Phrases.Count(all.Count, "run")}, valves open {Phrases.Length(all.Sum(run => run.Run.Seconds))} in all{water}.";
    }

    /// <summary>A finding in a line: <c>1 error: too much water at once. On Tue …</c></summary>
    internal static string Of(ChartFinding finding) => finding.Finding.Happens is { } occurrences ? MomentWords.When(occurrences) : "";

    private static string Short(LocalDate date) => MomentWords.Date(date)[..^5];
}
