using WaterScript.Quantities;
using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Answers.Usage;

/// <summary>Water used, as Markdown that fits a phone: a table of no more than four columns for each axis.</summary>
internal static class UsageMarkdown
{
    /// <summary>Writes it.</summary>
    /// <param name="usage">The answer.</param>
    /// <param name="showsAll">Whether each zone, schedule and supply has an entry, however many there are.</param>
    /// <param name="lines">Where to.</param>
    public static void Write(WaterUsage usage, bool showsAll, MarkdownLines lines)
    {
        ArgumentNullException.ThrowIfNull(usage);
        ArgumentNullException.ThrowIfNull(lines);
        var table = UsageTable.Of(usage, showsAll);
        var atLeast = table.Total.IsInPart ? "at least " : "";
        lines.Heading($"{usage.Site.DisplayName}, {UsageTerms.Range(usage)}: {atLeast}{table.Say(table.Total)} {table.Volume}{CostOfAll(usage)}");
        if (UsageTerms.Gaps(usage) is { Length: > 0 } gaps) lines.Sentence(gaps);
        foreach (var axis in usage.By) Table(axis, axis == usage.By[0] ? [.. table.Rows] : [.. table.Columns], table, usage, lines);
        lines.Part("Bills", usage.Meters.SelectMany(meter => new BillTable(meter).Sentences()));
        foreach (var allowance in usage.Allowances) lines.Sentence(allowance.Sentence);
        foreach (var battery in usage.Batteries) lines.Sentence(battery.Sentence);
        lines.Sentence(UsageTerms.Running(usage));
        foreach (var tank in usage.Meters.SelectMany(meter => meter.Tanks)) lines.Sentence(BillTable.NotCounted(tank));
        foreach (var missing in UsageTerms.NotCounted(usage)) lines.Sentence(missing);
    }

    private static void Table(UsageAxis axis, UsageEntry[] entries, UsageTable table, WaterUsage usage, MarkdownLines lines)
    {
        var depths = axis == UsageAxis.Zone ? new DepthWords(usage.Site).Unit : null;
        var hasCosts = usage.Costs.Has(axis);
        string[] heads = [axis.Word, table.Volume.Symbol, .. depths is null ? Array.Empty<string>() : [depths.Symbol],
            .. hasCosts ? [usage.Costs.Currency!.Code] : Array.Empty<string>()];
        lines.Table(heads, [.. entries.Select(entry => (MarkdownCell[])[.. Cells(entry, table, depths), .. hasCosts ? CostOf(axis, entry, usage) : []])],
            areNumbers: true);
    }

    private static MarkdownCell[] CostOf(UsageAxis axis, UsageEntry entry, WaterUsage usage) =>
        [new(UsageCosts.Say(usage.Costs.On(axis, entry.Places), usage.Costs.Currency!))];

    private static string CostOfAll(WaterUsage usage) => usage.Costs.Currency is { } currency && usage.By.Any(usage.Costs.Has)
        ? $", {UsageCosts.Say(usage.Costs.Total, currency)} {currency.Code}"
        : "";

    private static MarkdownCell[] Cells(UsageEntry entry, UsageTable table, Unit? depths)
    {
        var volume = new MarkdownCell(table.Say(entry.Sum));
        if (depths is null) return [new(entry.Label), volume];
        return [new(entry.Label), volume, new(entry.Sum.Depth is { } depth ? (depth / Fraction.Of(depths)).ToString(depths.Symbol == "mm" ? 0 : 1) : "–")];
    }
}
