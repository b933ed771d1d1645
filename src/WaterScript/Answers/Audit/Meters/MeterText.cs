using System.Collections.Immutable;
using System.Globalization;
using System.Numerics;
using WaterScript.Answers.Usage;
using WaterScript.Calendars;
using WaterScript.Quantities;
using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Answers.Audit.Meters;

/// <summary>What went through meters, for people: a table for each that adds up, and what stands out of it.</summary>
internal sealed class MeterText
{
    private const int MostBad = 20;
    private const int Width = 100;

    private readonly MeterAudit _audit;
    private readonly SiteWords _words;
    private readonly ZoneClock _clock;

    private MeterText(MeterAudit audit) => (_audit, _words, _clock) = (audit, new SiteWords(audit.Site), new ZoneClock(audit.Site.TimeZone));

    /// <summary>Writes it as text.</summary>
    public static void Write(MeterAudit audit, PlainLines lines)
    {
        ArgumentNullException.ThrowIfNull(audit);
        ArgumentNullException.ThrowIfNull(lines);
        var text = new MeterText(audit);
        foreach (var meter in audit.Meters.Where(meter => !meter.Periods.IsEmpty))
        {
            foreach (var line in new UsageGrid([Heads(meter), .. text.Rows(meter).Select(row => row.Cells)]).Lines()) lines.Line(line);
            foreach (var sentence in text.Remarks(meter)) Wrapped(sentence, lines);
        }

        foreach (var sentence in text.Notes()) Wrapped(sentence, lines);
    }

    /// <summary>Writes it as a comment.</summary>
    public static void Write(MeterAudit audit, MarkdownLines lines)
    {
        ArgumentNullException.ThrowIfNull(audit);
        ArgumentNullException.ThrowIfNull(lines);
        var text = new MeterText(audit);
        foreach (var meter in audit.Meters.Where(meter => !meter.Periods.IsEmpty))
        {
            MarkdownCell[][] rows = [.. text.Rows(meter).Select(row => row.Cells.Select(cell => new MarkdownCell(cell, row.IsUnusual)).ToArray())];
            lines.Table(Heads(meter), rows, areNumbers: true);
            foreach (var sentence in text.Remarks(meter)) lines.Sentence(sentence);
        }

        foreach (var sentence in text.Notes()) lines.Sentence(sentence);
    }

    private static void Wrapped(string sentence, PlainLines lines)
    {
        foreach (var line in WordWrap.Of(PlainLines.Shown(sentence), Width)) lines.Line(line);
    }

    private static ImmutableArray<string> Heads(MeterOutcome meter) =>
        [
            $"{meter.Supply.DisplayName}, {meter.Unit}", "watering", "other", "planned", "metered", "difference",
            .. HasLog(meter) ? ["log"] : Array.Empty<string>(),
        ];

    private static bool HasLog(MeterOutcome meter) => meter.Periods.Any(period => period.Log is not null);

    private IEnumerable<(ImmutableArray<string> Cells, bool IsUnusual)> Rows(MeterOutcome meter)
    {
        var digits = MeterUnit.Digits(meter.Unit);
        var scale = new Fraction(BigInteger.Pow(10, digits), 1) / Fraction.Of(meter.Unit);
        var exact = new Fraction[meter.Periods.Length, 2];
        foreach (var (index, period) in meter.Periods.Index()) (exact[index, 0], exact[index, 1]) = (period.Watering * scale, period.Other * scale);
        var planned = TableRounding.Of(exact);
        var metered = meter.Periods.Select(period => (period.Metered * scale).Rounded).ToList();
        foreach (var (index, period) in meter.Periods.Index())
        {
            var cells = Cells(Dates(period), planned.Cells[index, 0], planned.Cells[index, 1], planned.RowTotals[index], metered[index], period);
            yield return ([.. cells, .. HasLog(meter) ? [LogOf(period, meter.Unit)] : Array.Empty<string>()], period.IsUnusual);
        }

        if (meter.Periods.Length < 2) yield break;
        var all = metered.Aggregate(BigInteger.Zero, (sum, each) => sum + each);
        var name = Phrases.Count(meter.Periods.Length, "period");
        var sums = Cells(name, planned.ColumnTotals[0], planned.ColumnTotals[1], planned.Total, all, null);
        yield return ([.. sums, .. HasLog(meter) ? [""] : Array.Empty<string>()], false);

        ImmutableArray<string> Cells(string label, BigInteger watering, BigInteger other, BigInteger sum, BigInteger by, MeteredPeriod? of) =>
            [label, Fraction.Text(watering, digits), Fraction.Text(other, digits), Fraction.Text(sum, digits), Fraction.Text(by, digits),
                (of?.IsUnusual == true ? "! " : "") + Signed(by - sum, digits) + Share(by, sum)];
    }

    private static string Signed(BigInteger amount, int digits) =>
        (amount.Sign > 0 ? "+" : amount.Sign < 0 ? "−" : "") + Fraction.Text(BigInteger.Abs(amount), digits);

    private static string Share(BigInteger metered, BigInteger planned) =>
        planned.Sign <= 0 ? "" : $" ({Signed(new Fraction((metered - planned) * 100, planned).Rounded, 0)} %)";

    /// <summary><c>13 of 14, 1 not known, by hand 2.080</c></summary>
    private static string LogOf(MeteredPeriod period, Unit unit)
    {
        if (period.Log is not { } log) return "–";
        var notKnown = log.NotKnown > 0 ? string.Create(CultureInfo.InvariantCulture, $", {log.NotKnown} not known") : "";
        var byHand = log.ByHand.Sign > 0 ? $", by hand {Say(log.ByHand, unit)}" : "";
        return string.Create(CultureInfo.InvariantCulture, $"{log.Done} of {Phrases.Count(log.Passes, "pass", "passes")}{notKnown}{byHand}");
    }

    /// <summary>What stands out, and why.</summary>
    private IEnumerable<string> Remarks(MeterOutcome meter)
    {
        foreach (var period in meter.Periods.Where(period => period.IsUnusual))
        {
            var amount = Say(MeteredPeriod.Magnitude(period.Difference), meter.Unit);
            yield return $"{Dates(period)}: {amount} {(period.Difference.Sign > 0 ? "more" : "less")} than planned; {Why(period, meter.Unit)}.";
        }

        foreach (var zone in meter.Unmeasured)
            yield return $"Not planned: {zone.DisplayName} has no flow ({SiteWords.Place(zone.Origin)}); add flow to zone {zone.Name}.";
        foreach (var tank in meter.Tanks) yield return $"Not planned: what fills the tank of {tank.DisplayName} ({SiteWords.Place(tank.Origin)}).";
    }

    private static string Why(MeteredPeriod period, Unit unit)
    {
        if (period.Log is not { } log) return "no log says why";
        var parts = new List<string>();
        if (log is { Longest: { } longest, ByHand.Sign: > 0 })
            parts.Add($"{Say(log.ByHand, unit)} by hand ({longest.Zone.DisplayName}, {Phrases.Length(longest.ActualSeconds ?? 0)}{Row(longest.Place)})");
        var others = log.Change - log.ByHand;
        if (others.Sign != 0) parts.Add($"{Say(MeteredPeriod.Magnitude(others), unit)} {(others.Sign > 0 ? "more" : "less")} by run times of the log");
        var rest = period.Unexplained!.Value;
        parts.Add(period.IsClear ? "the log explains it" : $"{Say(MeteredPeriod.Magnitude(rest), unit)} {(rest.Sign < 0 ? "less " : "")}not explained");
        return string.Join("; ", parts);
    }

    private static string Row(LogPlace? row) => row is null ? "" : string.Create(CultureInfo.InvariantCulture, $", {row.File}:{row.Line}");

    private IEnumerable<string> Notes()
    {
        var periods = _audit.Meters.SelectMany(meter => meter.Periods).ToList();
        if (periods.Any(period => period.Other.Sign > 0)) yield return "Other use is what the file assumes, not what was measured.";
        yield return "Litres are flow × time, not counted.";
        foreach (var bad in _audit.Bad.Take(MostBad))
            yield return string.Create(CultureInfo.InvariantCulture, $"Not used, {bad.Place.File}:{bad.Place.Line}: {bad.Why}.");
        if (_audit.Bad.Length > MostBad) yield return $"Not used: {Phrases.Count(_audit.Bad.Length - MostBad, "more line")}.";
    }

    /// <summary>Whole dates where it is read at midnight, else moments.</summary>
    private string Dates(MeteredPeriod period)
    {
        var (first, end) = (_clock.At(period.From.At).Day, _clock.At(period.Until.At).Day);
        if (_clock.StartOfDay(first) != period.From.At || _clock.StartOfDay(end) != period.Until.At)
            return $"{_words.Moment(period.From.At)} to {_words.Moment(period.Until.At)}";
        return end == first + 1
            ? SiteWords.Date(first)
            : UsageTerms.Days(CivilDate.FromDayNumber(first).ToLocalDate(), CivilDate.FromDayNumber(end - 1).ToLocalDate(), hasYear: true);
    }

    private static string Say(Fraction litres, Unit unit) => (litres / Fraction.Of(unit)).ToString(MeterUnit.Digits(unit));
}
