using System.Globalization;
using NodaTime;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts;

/// <summary>The texts around the drawings, the same in documents and in pages.</summary>
internal static class ChartWords
{
    /// <summary>What the picture is of.</summary>
    internal static string Title(Chart chart) => chart.Site.DisplayName;

    /// <summary>When, by which clocks, and how much in all: <c>Wed 1 Jul to Thu 2 Jul 2026, noon to noon, Europe/Lisbon. 9 runs, 2 126 L. …</c></summary>
    public static string Summary(Chart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        return $"{Dates(chart)}{Rest(chart)}";
    }

    /// <summary>The first part of it: which dates.</summary>
    internal static string Dates(Chart chart) => chart.Days.Length == 1
        ? Heading(chart.Days[0])
        : $"{Short(chart.Days[0].Date)} to {MomentWords.Date(chart.Days[^1].Date.PlusDays(1))}";

    /// <summary>The rest of it.</summary>
    internal static string Rest(Chart chart)
    {
        var times = chart.Days.Length == 1
            ? "noon to noon"
            : string.Create(CultureInfo.InvariantCulture, $"{chart.Days.Length} nights from noon to noon on one axis");
        var day = chart.Days[0];
        var sky = chart.Days.Length == 1 ? string.Concat(Sky(day).Select(words => $" {words}.")) : "";
        return $", {times}, {chart.Site.TimeZone.Id}. {Amounts(chart.Days.SelectMany(each => each.Runs), chart.Site)}.{sky}";
    }

    /// <summary>The heading of a day.</summary>
    internal static string Heading(ChartDay day) => $"{Short(day.Date)} to {MomentWords.Date(day.Date.PlusDays(1))}";

    /// <summary>What happens in a night, beside its heading: <c>18 runs, 15 872 gal; 16 runs not watered, held: slit seeding</c>.</summary>
    internal static string NightWords(Chart chart, int index)
    {
        var day = chart.Days[index];
        var held = day.Held.GroupBy(each => each.Because, StringComparer.Ordinal)
            .Select(group => $"{Phrases.Count(group.Count(), "run")} not watered, {DisplayLine.CleanLine(group.Key)}");
        var water = day.Runs.IsEmpty && !day.Held.IsEmpty ? [] : new[] { Amounts(day.Runs, chart.Site) };
        return string.Join("; ", water.Concat(held).Concat(day.Shifts.Select(shift => shift.Words)));
    }

    /// <summary>How much water: <c>5 runs, 21 L</c>.</summary>
    internal static string Amounts(IEnumerable<ChartRun> runs, Site site)
    {
        var all = runs.ToList();
        if (all.Count == 0) return "no water";
        var litres = all.Sum(run => run.Litres ?? 0);
        var isWhole = all.TrueForAll(run => run.Litres is not null);
        var water = litres == 0 ? "" : $", {new WaterFigures(site).Volume(litres)}{(isWhole ? "" : " where the flow is known")}";
        return $"{Phrases.Count(all.Count, "run")}{water}";
    }

    /// <summary>Of one night the zones that get no water, as a sentence; else nothing.</summary>
    internal static string Unwatered(Chart chart)
    {
        if (chart.Days is not [var day] || day.Touching.IsEmpty) return "";
        var watered = day.Touching.Select(run => run.Zone.Index).Concat(day.Held.Select(held => held.Zone.Index)).ToHashSet();
        var dry = chart.Site.Zones.Where(zone => !zone.IsSpare && !watered.Contains(zone.Index)).Select(zone => zone.DisplayName).ToList();
        return dry.Count == 0 ? "" : $"No water this night: {Phrases.Names(dry, most: 20)}.";
    }

    private static IEnumerable<string> Sky(ChartDay day) =>
        new[] { string.Join(", ", day.Sun.Select(note => note.Text)) }.Concat(day.Shifts.Select(shift => shift.Words))
            .Where(words => words.Length > 0).Select(Capital);

    private static string Capital(string words) => words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];

    /// <summary>A finding in a line: <c>1 error: too much water at once. On Tue …</c></summary>
    internal static string Of(ChartFinding finding) => finding.Finding.Happens is { } occurrences ? MomentWords.When(occurrences) : "";

    private static string Short(LocalDate date) => MomentWords.Date(date)[..^5];
}
