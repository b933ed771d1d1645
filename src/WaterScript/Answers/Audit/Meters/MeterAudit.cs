using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Answers.Audit.Meters;

/// <summary>What went through meters, beside what was planned.</summary>
/// <param name="Site">The site.</param>
/// <param name="Meters">They, in order of the file.</param>
/// <param name="Bad">What of the readings cannot be used.</param>
internal sealed record MeterAudit(Site Site, ImmutableArray<MeterOutcome> Meters, ImmutableArray<BadRow> Bad)
{
    private const int SecondsInMinute = 60;

    /// <summary>Whether all readings could be used, and no period is unusual for which the log has no reason.</summary>
    public bool IsClear => Bad.IsEmpty && Meters.All(meter => meter.Periods.All(period => period.IsClear));

    /// <summary>When the first period begins, in Unix seconds.</summary>
    public long From => Meters.SelectMany(meter => meter.Periods).Min(period => period.From.At);

    /// <summary>When the last ends.</summary>
    public long Until => Meters.SelectMany(meter => meter.Periods).Max(period => period.Until.At);

    /// <summary>Compares readings with the plan.</summary>
    /// <param name="site">The site.</param>
    /// <param name="readings">The readings, with at least one period.</param>
    /// <param name="log">What became of what was planned; null where nobody kept a log.</param>
    /// <exception cref="WorkUsedUpException">There is too much to add up.</exception>
    public static MeterAudit Of(Site site, MeterReadings readings, AuditReport? log)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(readings);
        var budget = new WorkBudget(Limits.CheckWorkOf(site.SourceLength));
        var moments = readings.Columns.SelectMany(column => column.Periods).SelectMany(period => new[] { period.From.At, period.Until.At });
        var segments = new MeterSegments(site, moments, budget);
        return new MeterAudit(site, [.. readings.Columns.Select(column => Of(column, segments, log, budget))], readings.Bad);
    }

    private static MeterOutcome Of(MeterColumn column, MeterSegments segments, AuditReport? log, WorkBudget budget)
    {
        var entries = log is null || log.EntryCount > log.Entries.Length ? null
            : log.Entries.Where(entry => MeterSegments.IsBehind(entry.Zone, column.Supply)).ToList();
        var periods = column.Periods.Select(period => new MeteredPeriod(
            period.From, period.Until,
            segments.WateringOf(column.Supply, period.From.At, period.Until.At),
            segments.OtherOf(column.Supply, period.From.At, period.Until.At),
            (Fraction.Of(period.Until.Value) - Fraction.Of(period.From.Value)) * Fraction.Of(column.Unit))
        {
            Log = entries is null || log!.To <= period.From.At || log.From >= period.Until.At ? null
                : LogOf(entries, period.From.At, period.Until.At, budget),
        });
        return new MeterOutcome(column.Supply, column.Unit, [.. periods])
        {
            Unmeasured = segments.UnmeasuredOf(column.Supply),
            Tanks = segments.TanksLeftOutOf(column.Supply),
        };
    }

    private static LoggedPeriod LogOf(List<AuditEntry> entries, long from, long until, WorkBudget budget)
    {
        budget.Spend(entries.Count);
        var (change, byHand, longest) = (Fraction.Zero, Fraction.Zero, (AuditEntry?)null);
        foreach (var entry in entries)
        {
            var ran = entry.ActualFrom is { } began ? SecondsIn(began, entry.ActualSeconds ?? entry.Seconds, from, until)
                : entry.Class == AuditClass.NotKnown ? SecondsIn(entry.From, entry.Seconds, from, until) : 0;
            var flow = (entry.Zone.ExactLitresPerMinute ?? Fraction.Zero).DividedBy(SecondsInMinute);
            change += flow * Fraction.Of(ran - SecondsIn(entry.From, entry.Seconds, from, until));
            if (entry.Class != AuditClass.ByHand || ran == 0) continue;
            byHand += flow * Fraction.Of(ran);
            if ((entry.ActualSeconds ?? 0) > (longest?.ActualSeconds ?? -1)) longest = entry;
        }

        var passes = entries.Where(entry => entry.IsMeant).GroupBy(entry => (entry.Schedule?.Index, entry.Day))
            .Where(pass => pass.Min(entry => entry.From) is var first && first >= from && first < until).ToList();
        return new LoggedPeriod(change, byHand, passes.Count, passes.Count(pass => pass.All(entry => entry.Class == AuditClass.Done)),
            passes.Count(pass => pass.Any(entry => entry.Class == AuditClass.NotKnown)))
        {
            Longest = longest,
        };
    }

    private static long SecondsIn(long start, long seconds, long from, long until) => Math.Max(0, Math.Min(start + seconds, until) - Math.Max(start, from));
}
