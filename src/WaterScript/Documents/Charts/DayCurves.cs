using System.Collections.Immutable;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Simulation.Electrical;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts;

/// <summary>The curves of a day: for each supply its flow and the level of its tank, for each controller its power.</summary>
internal sealed class DayCurves(Site site, ChartRecorder recorder, WaterWords words, NightsOfSpan nights)
{
    private readonly List<CurveCorner>[][] _rushes = [.. recorder.Rushes.Select(rushes => nights.Split(rushes, rush => (rush.At, rush.At)))];

    /// <summary>The curves of a night, in order of the file. What never changes for lack of numbers is left out.</summary>
    public IEnumerable<ChartCurve> Of(int night)
    {
        var (from, until) = (nights.NoonOf(night), nights.NoonOf(night + 1));
        foreach (var supply in site.Supplies.Where(supply => supply.Flow is not null || !recorder.Flows[supply.Index].IsFlat))
        {
            yield return FlowOf(supply, supply.Flow?.Unit ?? words.Flow, recorder.Flows[supply.Index].Between(from, until));
        }

        foreach (var supply in site.Supplies)
        {
            if (recorder.Levels[supply.Index] is { } line) yield return LevelOf(supply, line.Between(from, until));
        }

        foreach (var controller in site.Controllers)
        {
            var line = recorder.Powers[controller.Index];
            if (recorder.PowerLimits[controller.Index] is { } limit && !line.IsFlat) yield return PowerOf(controller, limit, line.Between(from, until),
                [.. _rushes[controller.Index][night]]);
        }
    }

    private static ChartCurve FlowOf(Supply supply, Unit unit, ImmutableArray<CurveCorner> corners)
    {
        var most = corners.Max(corner => corner.Value);
        var words = Limited(most, supply.Flow?.InBase, amount => Phrases.Amount(amount, unit, digits: 1));
        return new ChartCurve(CurveKind.Flow, supply.DisplayName, corners, supply.Flow?.InBase, TopOf(most, supply.Flow?.InBase), unit, words,
            supply.Flow is { } flow ? $"gives {flow}" : "");
    }

    private static ChartCurve LevelOf(Supply supply, ImmutableArray<CurveCorner> corners)
    {
        var (tank, least) = (supply.Tank!.Value, corners.Min(corner => corner.Value));
        var words = $"down to {Phrases.Amount(least, tank.Unit, Digits(tank.Unit))} of {tank}";
        return new ChartCurve(CurveKind.Level, supply.DisplayName, corners, supply.Reserve?.InBase ?? 0, tank.InBase, tank.Unit, words,
            supply.Reserve is { } reserve ? $"reserve {reserve}" : "");
    }

    private static ChartCurve PowerOf(Controller controller, PowerLimit limit, ImmutableArray<CurveCorner> corners, ImmutableArray<CurveCorner> rushes)
    {
        var most = corners.Max(corner => corner.Value);
        var rush = rushes.Select(each => each.Value).Append(0).Max();
        var words = Limited(most, limit.Amount.InBase, limit.Say);
        if (rush > most && most <= limit.Amount.InBase + Flows.Tolerance) words = $"up to {limit.Say(rush)} with inrush";
        var peak = PowerLimit.Peak(controller.Power) is { IsStated: true } stated && stated.Amount != limit.Amount ? $", peak {stated.Amount}" : "";
        return new ChartCurve(CurveKind.Power, controller.DisplayName, corners, limit.Amount.InBase, TopOf(Math.Max(most, rush), limit.Amount.InBase),
            limit.Amount.Unit, words, $"carries {limit.Amount}{peak}")
        { Rushes = rushes };
    }

    /// <summary>Litres and gallons of a tank are shown whole, cubic metres to the ten litres.</summary>
    private static int Digits(Unit unit) => unit.Numerator >= 1_000 ? 2 : 0;

    private static string Limited(decimal most, decimal? limit, Func<decimal, string> say) => limit is { } bound && most > bound + Flows.Tolerance
        ? $"{say(most)}, {Phrases.Bare(say(most - bound))} too much"
        : $"up to {say(most)}";

    private static decimal TopOf(decimal most, decimal? limit)
    {
        var top = Math.Max(most, limit ?? 0);
        return top > 0 ? top : 1;
    }
}
