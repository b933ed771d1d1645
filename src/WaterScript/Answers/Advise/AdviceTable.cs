using System.Text;
using WaterScript.Agronomy;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Answers.Advise;

/// <summary>
/// The advice as text for people: a table for each zone, what was taken for granted, and the shares to paste. Depths are in inches where the file
/// measures its ground or its weather so.
/// </summary>
internal sealed class AdviceTable
{
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
        var scale = AdviceWords.ScaleLine(advice);
        if (silent.Sum(group => group.Count()) == advice.Zones.Length && scale is null) yield break;
        if (scale is not null) yield return $"To paste:  {scale}";
        yield return string.Concat(AdviceWords.Assumed(advice).Select(sentence => $"Assumed: {sentence}\n")) + $"{AdviceWords.Caution}\n";
    }

    private string Table(ZoneAdvice advice)
    {
        string[] heads = [$"{_depths.Unit} a month", "ETo a day", "plants", "rain", "needs", "schedule", "every", "for"];
        string[][] rows = [heads, .. advice.Months.Select(Cells)];
        var widths = heads.Select((_, column) => rows.Max(row => row[column].Length)).ToArray();
        var text = new StringBuilder($"{advice.Zone.DisplayName}: {About(advice.Zone)}\n");
        foreach (var row in rows) text.Append(Line(row, widths)).Append('\n');
        return text.ToString();
    }

    /// <summary>The month and the last column to the left, the rest to the right of their columns, two blanks between them.</summary>
    private static string Line(string[] cells, int[] widths) => string.Join("  ", cells.Select((cell, column) =>
        column == 0 ? cell.PadRight(widths[0]) : column == cells.Length - 1 ? cell : cell.PadLeft(widths[column]))).TrimEnd();

    private string About(Zone zone)
    {
        var share = Uniformity.ShareThatCounts(zone);
        var parts = new List<string>
        {
            zone.Soil is { } soil ? $"{zone.Plants!.Name} on {soil.Name}" : zone.Plants!.Name,
            $"{_depths.Say(zone.MillimetresPerHour!.Value)}/h",
            zone is { EfficiencyPercent: null, UniformityPercent: null } ? "all of it counted (no efficiency given)"
                : $"{Phrases.Number(share, 0)} % of it counted",
        };
        if (RootZone.Of(zone) is { } roots) parts.Add($"{_depths.Number(roots.Readily, 0)} of {_depths.Say(roots.Total, 0)} usable");
        return string.Join(", ", parts);
    }

    private string[] Cells(MonthAdvice month)
    {
        var watering = month.Watering?.InMinutes();
        return
        [
            Phrases.Month(month.Weather.Month)[..3],
            _depths.Number(month.Weather.Et),
            month.Coefficient is null ? "–" : _depths.Number(month.Demand, 0),
            _depths.Number(month.Weather.EffectiveRain, 0),
            _depths.Number(month.Need, 0),
            _depths.Number(month.Given, 0),
            watering is null ? "–" : Interval(watering),
            watering is null ? "–" : Phrases.Length(watering.Seconds)
                + (watering.Cycle is { } cycle ? $", cycle {Phrases.Length(cycle.Seconds)} soak {Phrases.Length(cycle.Soak)}" : ""),
        ];
    }

    private static string Interval(AdvisedWatering watering) => watering switch
    {
        { TimesADay: > 1 } => $"day, {Phrases.Count(watering.TimesADay, "time")}",
        { IntervalDays: null or 1 } => "day",
        { IntervalDays: { } days } => Phrases.Count(days, "day"),
    };
}
