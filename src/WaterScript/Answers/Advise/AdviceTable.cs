using System.Text;
using WaterScript.Agronomy;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Answers.Advise;

/// <summary>
/// The advice as text for people: a table for each zone, what was taken for granted, and the shares to paste. Depths are in inches where the file
/// measures its ground or its weather so.
/// </summary>
internal sealed class AdviceTable
{
    private static readonly int[] Widths = [5, 10, 9, 9, 9, 10, 15, 17];
    private readonly DepthWords _depths;

    private AdviceTable(WateringAdvice advice) => _depths = new DepthWords(advice.Site);

    /// <summary>The text, with LF line ends, which closes with one.</summary>
    public static string Of(WateringAdvice advice)
    {
        ArgumentNullException.ThrowIfNull(advice);
        if (advice.Zones.IsEmpty) return $"{advice.Site.DisplayName} has no zone in use, so there is nothing to advise.\n";
        return string.Join('\n', new AdviceTable(advice).Sections(advice));
    }

    /// <summary>What stands between empty lines.</summary>
    private IEnumerable<string> Sections(WateringAdvice advice)
    {
        foreach (var zone in advice.Zones.Where(zone => zone.Lacks is null)) yield return Table(zone);
        var silent = advice.Zones.Where(zone => zone.Lacks is not null).GroupBy(zone => zone.Lacks).ToArray();
        if (silent.Length > 0)
            yield return string.Concat(silent.Select(
                group => $"No advice for {Phrases.Names([.. group.Select(zone => zone.Zone.Name)])} ({group.Key}).\n"));
        if (silent.Sum(group => group.Count()) == advice.Zones.Length && AdviceWords.ScaleBlock(advice) is null) yield break;
        if (AdviceWords.ScaleBlock(advice) is { } block)
        {
            yield return "Shares of the peak month, the mean of all zones, to paste:\n";
            yield return block;
        }

        yield return $"Assumed:\n{string.Concat(AdviceWords.Assumed(advice).Select(sentence => $"- {sentence}\n"))}";
        yield return $"{AdviceWords.Caution}\n";
    }

    private string Table(ZoneAdvice advice)
    {
        var text = new StringBuilder($"{advice.Zone.DisplayName}: {About(advice.Zone)}\n");
        Row(text, "", "reference", "plants", "rain", "to be", "schedule", "", "");
        Row(text, "", $"{_depths.Unit}/day", "use", "counts", "watered", "gives", "every", "for");
        foreach (var month in advice.Months) Write(month, text);
        return text.ToString();
    }

    private string About(Zone zone)
    {
        var share = Uniformity.ShareThatCounts(zone);
        var parts = new List<string>
        {
            zone.Soil is { } soil ? $"{zone.Plants!.Name} on {soil.Name}" : zone.Plants!.Name,
            $"{_depths.Say(zone.MillimetresPerHour!.Value)}/h",
            share == 100 ? "all of it counted" : $"{Phrases.Number(share, 0)} % of it counted",
        };
        if (RootZone.Of(zone) is { } roots)
            parts.Add($"{_depths.Number((decimal)roots.Readily, 0)} of {_depths.Say((decimal)roots.Total, 0)} in the root zone usable");
        return string.Join(", ", parts);
    }

    private void Write(MonthAdvice month, StringBuilder text)
    {
        var watering = month.Watering;
        Row(
            text,
            MonthNames.All[month.Weather.Month - 1],
            _depths.Number(month.Weather.Et),
            month.Coefficient is null ? "–" : _depths.Number(month.Demand, 0),
            _depths.Number(month.Weather.EffectiveRain, 0),
            _depths.Number(month.Need, 0),
            _depths.Number(month.Given, 0),
            watering is null ? "–" : Interval(watering),
            watering is null ? "–" : Phrases.Length(watering.Seconds),
            watering?.Cycle is { } cycle ? $"  cycle {Phrases.Length(cycle.Seconds)} soak {Phrases.Length(cycle.Soak)}" : "");
    }

    private static string Interval(AdvisedWatering watering) => watering switch
    {
        { IsTooLittle: true } => "day, in parts",
        { IntervalDays: null or 1 } => "day",
        { IntervalDays: { } days } => Phrases.Count(days, "day"),
    };

    /// <summary>The month to the left, the rest to the right of their columns; what comes after the last is not set in a column.</summary>
    private static void Row(StringBuilder text, params string[] cells)
    {
        var line = new StringBuilder(cells[0].PadRight(Widths[0]));
        for (var column = 1; column < cells.Length; column++) line.Append(column < Widths.Length ? cells[column].PadLeft(Widths[column]) : cells[column]);
        text.Append(line.ToString().TrimEnd()).Append('\n');
    }
}
