namespace WaterScript.Answers.Audit.Meters;

/// <summary>What went through meters, for programs.</summary>
internal static class MetersJson
{
    private const int Digits = 6;

    /// <summary>The periods of all meters.</summary>
    public static IEnumerable<AuditMeterItem> Of(MeterAudit audit, SiteMoments moments)
    {
        ArgumentNullException.ThrowIfNull(audit);
        return audit.Meters.Select(meter => new AuditMeterItem
        {
            Supply = meter.Supply.Name,
            Periods = meter.Periods.Select(period => Of(period, moments)),
            NotPlanned = meter.Unmeasured.IsEmpty && meter.Tanks.IsEmpty ? null
                : [.. meter.Unmeasured.Select(zone => zone.Name), .. meter.Tanks.Select(tank => tank.Name)],
        });
    }

    private static AuditMeterPeriodItem Of(MeteredPeriod period, SiteMoments moments) => new()
    {
        From = moments.At(period.From.At),
        Until = moments.At(period.Until.At),
        File = period.Until.Place.File,
        Line = period.Until.Place.Line,
        Watering = period.Watering.ToDecimal(Digits),
        Other = period.Other.ToDecimal(Digits),
        Metered = period.Metered.ToDecimal(Digits),
        Unusual = period.IsUnusual,
        Explained = period is { IsUnusual: true, IsClear: true } ? true : null,
        Logged = period.Explained?.ToDecimal(Digits),
        ByHand = period.Log?.ByHand.ToDecimal(Digits),
        Passes = period.Log?.Passes,
        PassesDone = period.Log?.Done,
        PassesNotKnown = period.Log?.NotKnown,
    };
}
