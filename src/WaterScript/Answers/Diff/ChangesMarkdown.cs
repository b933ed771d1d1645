using WaterScript.Answers.Diff.Costs;
using WaterScript.Answers.Diff.Words;
using WaterScript.Diagnostics;
using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff;

/// <summary>What changes between two versions, as a comment on a change.</summary>
internal static class ChangesMarkdown
{
    private const string Nothing = "–";
    private const int MostFindings = 20;

    /// <summary>Writes it.</summary>
    public static void Write(WateringChanges changes, MarkdownLines lines)
    {
        ArgumentNullException.ThrowIfNull(lines);
        var report = new ChangeReport(changes);
        var more = new[] { report.Findings, report.Dates }.Where(words => words.Length > 0);
        lines.Heading($"{changes.New.DisplayName}: {report.Verdict}.", string.Join(' ', more));
        if (report.Limit is { } limit) lines.Sentence($"Over the limit: {limit}");
        if (report.TimeZones is { } data) lines.Sentence($"Time zones: {data}");
        lines.Table(["", "was", "is"], [.. report.Rows.SelectMany(RowsOf), .. changes.Zones.Select(zone => RowOf(zone, report)), .. CostsOf(changes)]);
        if (changes.Costs.IsOverLimit) lines.Sentence($"Costs: {CostWords.Costs(changes.Costs, changes.IsChanged).First()}");
        if (report.Devices is { } devices) lines.Sentence($"Devices: {devices}");
        Findings(lines, "New", changes.Findings.Appeared);
        Findings(lines, "Changed", [.. changes.Findings.Turned.Where(turn => turn.IsMore).Select(turn => turn.New)]);
        Findings(lines, "Gone", changes.Findings.Gone);
        Findings(lines, "Accepted", [.. changes.Findings.Accepted.Select(accepted => accepted.Finding)]);
    }

    private static IEnumerable<MarkdownCell[]> RowsOf(ChangeRow row) => row.Parts.Select(part =>
    {
        var what = part.What.Length > 0 ? $"{row.Label}: {part.What}" : row.Label;
        var place = part.Place is { } there ? $" ({SiteWords.Place(there)})" : "";
        if (part is { Old: "", New: "" } || part.Effect.Length > 0) return new MarkdownCell[] { new(what + place), new(Nothing), new(part.Text + part.Effect) };
        return [new(what + place), new(Or(part.Old)), new(Or(part.New))];
    });

    private static MarkdownCell[] RowOf(ZoneChange zone, ChangeReport report)
    {
        var (unit, old, @new) = report.Week.Sides(zone);
        var what = $"{zone.DisplayName}, {(unit.Length > 0 ? unit : "time")} a week{(report.Changes.IsOfSeason ? " in season" : "")}";
        return [new(what), new(old), new(@new, WeekWords.IsLarge(zone))];
    }

    private static IEnumerable<MarkdownCell[]> CostsOf(WateringChanges changes) =>
        CostWords.Rows(changes.Costs).Select(row => new MarkdownCell[] { new(row.What), new(Or(row.Old)), new(Or(row.New), row.IsMore) });

    private static void Findings(MarkdownLines lines, string word, IReadOnlyCollection<Finding> findings)
    {
        foreach (var finding in findings.Take(MostFindings))
            lines.Finding($"{word} {FindingSummary.WordOf(finding.Severity)}: {finding.Heading}", finding.Rule.Slug, SiteWords.Place(finding.Primary.Location));
        if (findings.Count > MostFindings) lines.Sentence($"{word}: {Phrases.Count(findings.Count - MostFindings, "more finding")}");
    }

    private static string Or(string text) => text.Length > 0 ? text : Nothing;
}
