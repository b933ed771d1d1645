using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation.Water;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Plants;

/// <summary>How it is reported that a zone gets more or less than its plants need.</summary>
internal static class DemandMetWords
{
    /// <summary>What neither rule about crop demand sees.</summary>
    public const string KnownLimits = "Only with a climate, plants and an application rate. Monthly means are spread evenly over the days, so a real year " +
        "differs. Days count that lie in a row of waterings no more than 31 days apart; a month with fewer than ten of them, or less than 5 mm off, is\n" +
        "not reported. Manual schedules are not looked at. Local advice and codes govern.";

    /// <summary>Millimetres in a month that are worth a finding.</summary>
    public const decimal LeastDifference = 5;

    private const int MostInLabel = 2;
    private static readonly string[] Names = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

    /// <summary>The zones of which nothing can be said, by what lacks; what the site itself lacks, once.</summary>
    public static IEnumerable<Gap> NotChecked(LintContext context) => Gap
        .Each(Concern.WaterNeed, "water need", context.Site.Zones.Where(zone => !zone.IsSpare && !zone.WatersNoPlants)
            .Select(zone => (Thing.Of(zone), context.DemandMet.MissingFor(zone))))
        .Select(gap => ZoneBalance.IsOfSite(gap.Add) ? gap with { Of = [] } : gap);

    /// <summary>The finding of a zone.</summary>
    public static Finding FindingFor(Rule rule, LintContext context, Zone zone, ImmutableArray<MetMonth> months, string share, string help)
    {
        var steps = context.Steps.Of(context.Water.FirstOf(zone)!.Value);
        return Finding.At(rule, zone.Origin, $"zone {zone.Name} gets {share} of its need", Needs(zone, months, context.Depths)) with
        {
            Others = [.. steps.Labels($"gives {Each(months, month => context.Depths.Say(month.Given, 0))}")],
            Details = string.Join('\n', months.Select(month => Line(month, context.Depths))),
            Assumed = "mean weather, spread evenly over each month; the soil starts full.",
            Excess = (decimal)months.Sum(month => Math.Abs(month.Given - month.Need)),
            Help = help,
        };
    }

    /// <summary><c>Jul: gets 62 mm of 118 mm, 53 %; plants lack water on 21 days</c></summary>
    private static string Line(MetMonth month, DepthWords depths)
    {
        var share = month.Need > 0 ? $", {Number(100 * month.Given / month.Need)} %" : "";
        return $"{Names[month.Month - 1]} {Phrases.Bare(depths.Say(month.Given, 0))} of {depths.Say(month.Need, 0)}{share}{DaysOf(month)}"
            + (month.StressDays >= 0.5m ? $": too dry on {Number(month.StressDays)} days" : "")
            + (month.Percolation >= 0.5m ? $": {depths.Say(month.Percolation, 0)} drains below the roots" : "") + ".";
    }

    /// <summary>Of a month in which the waterings begin or end, the days that count: what is needed in it is that of these days.</summary>
    private static string DaysOf(MetMonth month) =>
        Number(month.Days) == Number(month.Length) ? "" : $", on {Number(month.Days)} of {Number(month.Length)} days";

    /// <summary><c>31 %</c>, or <c>up to 148 %</c> where several months differ.</summary>
    /// <param name="months">The months.</param>
    /// <param name="isMost">Whether the greatest share counts; else the least.</param>
    public static string UpTo(ImmutableArray<MetMonth> months, bool isMost)
    {
        decimal[] shares = [.. months.Where(month => month.Need > 0).Select(month => 100 * month.Given / month.Need)];
        if (shares.Length == 0) return isMost ? "more" : "less";
        var words = $"{Number(isMost ? shares.Max() : shares.Min())} %";
        return shares.Length == 1 ? words : isMost ? $"up to {words}" : $"as little as {words}";
    }

    /// <summary><c>turf-cool needs 100 mm in May, 92 mm in Sep</c></summary>
    private static string Needs(Zone zone, ImmutableArray<MetMonth> months, DepthWords depths) =>
        $"{zone.Plants?.Name ?? "needs"} needs {Each(months, month => $"{depths.Say(month.Need, 0)} in {Names[month.Month - 1]}")}";

    /// <summary>The first two of the months; the facts list all.</summary>
    private static string Each(ImmutableArray<MetMonth> months, Func<MetMonth, string> words) =>
        string.Join(", ", months.Take(MostInLabel).Select(words)) + (months.Length > MostInLabel ? ", …" : "");

    private static string Number(decimal value) => Phrases.Number(value, 0);
}
