using System.Text;
using WaterScript.Agronomy;
using WaterScript.Checks;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Outputs;

/// <summary>The advice as text for people: a table for each zone, what was taken for granted, and the shares to paste. Depths are in inches where the file gives its climate so.</summary>
public sealed class AdviceTable
{
    private static readonly int[] Widths = [5, 10, 9, 9, 9, 10, 15, 17];
    private readonly WateringAdvice _advice;
    private readonly Unit _unit;
    private readonly int _digits;

    private AdviceTable(WateringAdvice advice)
    {
        _advice = advice;
        var isInches = advice.Site.Climate?.Months.Any(month => month?.Rain?.Unit.Symbol == "in" || month?.Et?.Unit.Symbol.StartsWith("in/", StringComparison.Ordinal) == true) ?? false;
        (_unit, _digits) = isInches ? (Units.Find("in", Dimension.Depth)!, 2) : (Units.Find("mm", Dimension.Depth)!, 0);
    }

    /// <summary>The text, with LF line ends, which closes with one.</summary>
    public static string Of(WateringAdvice advice)
    {
        ArgumentNullException.ThrowIfNull(advice);
        var table = new AdviceTable(advice);
        var text = new StringBuilder();
        foreach (var zone in advice.Zones.Where(zone => zone.Lacks is null)) table.Write(zone, text);
        foreach (var group in advice.Zones.Where(zone => zone.Lacks is not null).GroupBy(zone => zone.Lacks))
            text.Append($"Nothing to say of {Wording.Names([.. group.Select(zone => zone.Zone.Name)])} ({group.Key}).\n");
        if (AdviceWords.ScaleBlock(advice) is { } block) text.Append($"{(text.Length > 0 ? "\n" : "")}Shares of the peak month, the mean of all zones, to paste:\n\n{block}");
        text.Append("\nAssumed:\n");
        foreach (var sentence in AdviceWords.Assumed(advice)) text.Append($"- {sentence}\n");
        return text.Append($"\n{AdviceWords.Caution}\n").ToString();
    }

    private void Write(ZoneAdvice advice, StringBuilder text)
    {
        text.Append($"{advice.Zone.DisplayName}: {About(advice.Zone)}\n");
        Row(text, "", "reference", "plants", "rain", "to be", "schedule", "", "");
        Row(text, "", $"{_unit}/day", "use", "counts", "watered", "gives", "every", "for");
        foreach (var month in advice.Months) Write(month, text);
        text.Append('\n');
    }

    private string About(Zone zone)
    {
        var parts = new List<string> { zone.Plants!.Name };
        if (zone.Soil is { } soil) parts.Add($"on {soil.Name}");
        parts.Add($"{Amount(zone.MillimetresPerHour!.Value, _digits + 1)} {_unit}/h, of which {Wording.Number(Uniformity.ShareThatCounts(zone), 0)} % count");
        if (RootZone.Of(zone) is { } roots) parts.Add($"of {Amount((decimal)roots.Total, _digits)} {_unit} in the root zone {Amount((decimal)roots.Readily, _digits)} may be used");
        return string.Join(", ", parts);
    }

    private void Write(MonthAdvice month, StringBuilder text)
    {
        var watering = month.Watering;
        Row(
            text,
            GroundDescription.Months[month.Weather.Month - 1],
            Amount(month.Weather.Et, _digits + 1),
            month.Coefficient is null ? "–" : Amount(month.Demand, _digits),
            Amount(month.Weather.EffectiveRain, _digits),
            Amount(month.Need, _digits),
            Amount(month.Given, _digits),
            watering is null ? "–" : Interval(watering),
            watering is null ? "–" : Wording.Length(watering.Seconds),
            watering?.Cycle is { } cycle ? $"  cycle {Wording.Length(cycle.Seconds)} soak {Wording.Length(cycle.Soak)}" : "");
    }

    private static string Interval(AdvisedWatering watering) => watering switch
    {
        { IsTooLittle: true } => "day, in parts",
        { IntervalDays: null or 1 } => "day",
        { IntervalDays: { } days } => Wording.Count(days, "day"),
    };

    private string Amount(decimal millimetres, int digits) => Wording.Number(millimetres * _unit.Denominator / _unit.Numerator, digits);

    /// <summary>The month to the left, the rest to the right of their columns; what comes after the last is not set in a column.</summary>
    private static void Row(StringBuilder text, params string[] cells)
    {
        var line = new StringBuilder(cells[0].PadRight(Widths[0]));
        for (var column = 1; column < cells.Length; column++) line.Append(column < Widths.Length ? cells[column].PadLeft(Widths[column]) : cells[column]);
        text.Append(line.ToString().TrimEnd()).Append('\n');
    }
}
