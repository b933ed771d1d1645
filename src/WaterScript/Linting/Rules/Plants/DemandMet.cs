using System.Collections.Immutable;
using WaterScript.Agronomy;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation.Water;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Plants;

/// <summary>What each zone gets against what its plants want, month by month: what both rules about that stand on.</summary>
internal sealed class DemandMet(LintContext context)
{
    /// <summary>A month of which fewer days lie in a row of waterings says little.</summary>
    private const int LeastDays = 10;

    private readonly ImmutableArray<MonthWeather?> _year = MonthWeather.YearOf(context.Site);

    private readonly Dictionary<Zone, ImmutableArray<MetMonth>> _months = new(ReferenceEqualityComparer.Instance);

    /// <summary>The zones of which months are out of bounds, with those months.</summary>
    /// <param name="isOut">Whether a month is, by what is given and what is needed in mm.</param>
    public IEnumerable<(Zone Zone, ImmutableArray<MetMonth> Months)> Where(Func<double, double, bool> isOut)
    {
        foreach (var zone in context.Site.Zones.Where(zone => ZoneBalance.LacksFor(zone, context.Site, _year) is null))
        {
            if (!_months.TryGetValue(zone, out var all)) _months[zone] = all = [.. MonthsOf(zone)];
            ImmutableArray<MetMonth> months = [.. all.Where(month => isOut(month.Given, month.Need))];
            if (months.Length > 0) yield return (zone, months);
        }
    }

    /// <summary>The zones of which nothing can be said, by what lacks.</summary>
    public IEnumerable<string> NotChecked() => context.Site.Zones.Where(zone => !zone.IsSpare)
        .Select(zone => (zone.Name, Lacks: ZoneBalance.LacksFor(zone, context.Site, _year))).Where(zone => zone.Lacks is not null)
        .GroupBy(zone => zone.Lacks)
        .Select(group => $"water that the plants of {Phrases.Names([.. group.Select(zone => zone.Name)])} need ({group.Key})");

    /// <summary>The finding of a zone.</summary>
    public Finding FindingFor(Rule rule, Zone zone, ImmutableArray<MetMonth> months, string heading, string label, string help)
    {
        var steps = context.Steps.Of(context.Water.FirstOf(zone)!.Value);
        return Finding.At(rule, zone.Origin, heading, label) with
        {
            Others = [.. steps.Labels("waters it")],
            Details = string.Join('\n', months.Select(month => month.Words(context.Depths))),
            Assumed = "Mean weather, spread evenly over each month; the ground is full at the start.",
            Help = help,
        };
    }

    private IEnumerable<MetMonth> MonthsOf(Zone zone) => ZoneBalance.Of(zone, context.Water.DaysOf(zone), context.Horizon, _year)
        .Where(month => month is { IsKnown: true, SeasonDays: > 0 })
        .GroupBy(month => month.Month)
        .Where(months => months.Sum(month => month.SeasonDays) >= LeastDays)
        .OrderBy(months => months.Key)
        .Select(months => MetMonth.Of(months.Key, [.. months]));
}

/// <summary>A month of the year, as a mean of those of the horizon.</summary>
/// <param name="Month">1 to 12.</param>
/// <param name="Given">Watering that plants can use, in mm.</param>
/// <param name="Need">What has to be watered, in mm.</param>
/// <param name="StressDays">Days on which plants lack water.</param>
/// <param name="Percolation">What runs below the roots, in mm.</param>
internal sealed record MetMonth(int Month, double Given, double Need, double StressDays, double Percolation)
{
    private static readonly string[] Names = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

    /// <summary>The mean of some months.</summary>
    public static MetMonth Of(int month, ZoneMonth[] months) => new(
        month,
        months.Average(each => each.SeasonGiven),
        months.Average(each => each.SeasonNeed),
        months.Average(each => (double)each.StressDays),
        months.Average(each => each.Percolation));

    /// <summary><c>Jul: gets 62 mm of 118 mm, 53 %; plants lack water on 21 days</c></summary>
    /// <param name="depths">How depths are said.</param>
    public string Words(DepthWords depths) => $"{Names[Month - 1]}: gets {depths.Say((decimal)Given, 0)} of {depths.Say((decimal)Need, 0)}{(Need > 0 ? $", {Number(100 * Given / Need)} %" : "")}"
        + (StressDays >= 0.5 ? $"; plants lack water on {Number(StressDays)} days" : "")
        + (Percolation >= 0.5 ? $"; {depths.Say((decimal)Percolation, 0)} run below the roots" : "") + ".";

    private static string Number(double value) => Phrases.Number((decimal)value, 0);
}
