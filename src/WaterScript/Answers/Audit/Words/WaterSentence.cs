using WaterScript.Wording;

namespace WaterScript.Answers.Audit.Words;

/// <summary>How a report says what each zone had of the water that was planned: the unit once, then bare numbers.</summary>
/// <param name="report">The report.</param>
/// <param name="whyNotKnown">Why it is not known what became of a watering.</param>
internal sealed class WaterSentence(AuditReport report, Func<AuditEntry, string> whyNotKnown)
{
    /// <summary>Below so many of a unit a digit after the point is said.</summary>
    private const decimal Few = 10;

    private readonly WaterWords _water = new(report.Site);
    private bool _isUnitSaid;

    /// <summary>Without its full stop; null where no zone was due or ran.</summary>
    public string? Write()
    {
        var zones = report.Water.Where(water => water.MeantSeconds + water.ActualSeconds > 0).Select(Words).ToList();
        return zones.Count == 0 ? null : string.Join(", ", zones);
    }

    private string Words(AuditedWater water)
    {
        var known = water.MeantSeconds - water.NotKnownSeconds;
        var amounts = known + water.ActualSeconds == 0
            ? $"unknown of {Amount(water, water.NotKnownSeconds)}{Because(water)}"
            : Pair(water, water.ActualSeconds, known) + (water.NotKnownSeconds == 0 ? "" : $" (and {Amount(water, water.NotKnownSeconds)} unknown)");
        return $"{water.Zone.DisplayName} {amounts}{(water.MeteredLitres is { } litres ? $" (by the meter {Volume(litres)})" : "")}";
    }

    /// <summary>Why nothing is known of a zone, where that has one reason.</summary>
    private string Because(AuditedWater water)
    {
        var reasons = report.NotKnown.First.Where(entry => entry.Zone == water.Zone).Select(whyNotKnown).Distinct().Take(2).ToList();
        return reasons is [var only] ? $" ({only})" : "";
    }

    private string Pair(AuditedWater water, long actual, long known) => water.Zone.LitresPerMinute is { } flow
        ? $"{Phrases.Bare(Said(flow * actual / 60))} of {Volume(flow * known / 60)}"
        : $"{Phrases.Length(actual)} of {Phrases.Length(known)}";

    /// <summary>Water where the flow is known, else time.</summary>
    private string Amount(AuditedWater water, long seconds) => water.Zone.LitresPerMinute is { } flow ? Volume(flow * seconds / 60) : Phrases.Length(seconds);

    private string Volume(decimal litres)
    {
        var said = Said(litres);
        if (_isUnitSaid) return Phrases.Bare(said);
        _isUnitSaid = true;
        return said;
    }

    private string Said(decimal litres)
    {
        var inUnit = litres * _water.Volume.Denominator / _water.Volume.Numerator;
        return _water.Say(litres, inUnit < Few && decimal.Truncate(inUnit) != inUnit ? 1 : 0);
    }
}
