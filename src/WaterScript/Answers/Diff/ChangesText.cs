using WaterScript.Answers.Diff.Costs;
using WaterScript.Answers.Diff.Words;
using WaterScript.Diagnostics;
using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff;

/// <summary>What changes between two versions, as a report for people.</summary>
internal sealed class ChangesText
{
    /// <summary>Columns of a line.</summary>
    private const int Width = 100;

    /// <summary>The widest label that all others are set beside.</summary>
    private const int WidestLabel = 18;

    /// <summary>Findings of a kind that are shown.</summary>
    private const int MostFindings = 20;

    private const string Allowance = "Allowance";

    private readonly ChangeReport _report;
    private readonly PlainLines _lines;
    private readonly int _column;

    private ChangesText(ChangeReport report, PlainLines lines)
    {
        (_report, _lines) = (report, lines);
        _column = report.Rows.Select(row => row.Label.Length).Where(length => length <= WidestLabel).Append("Per week".Length)
            .Append(report.Changes.Costs.Allowances.IsEmpty ? 0 : Allowance.Length).Max() + 2;
    }

    /// <summary>Writes it.</summary>
    public static void Write(WateringChanges changes, PlainLines lines) => new ChangesText(new ChangeReport(changes), lines).Write();

    private void Write()
    {
        _lines.Line($"{_report.Changes.New.DisplayName}: {_report.Verdict}. {_report.Dates}");
        if (_report.Limit is { } limit) _lines.Line($"Over the limit: {limit}");
        if (_report.TimeZones is { } data) Row("Time zones", [data]);
        foreach (var row in _report.Rows) Row(row.Label, row.Texts, ";");
        Row("Per week", _report.WaterAWeek, ",");
        Lines("Costs", CostWords.Costs(_report.Changes.Costs, _report.Changes.IsChanged));
        Lines(Allowance, CostWords.Allowances(_report.Changes.Costs));
        if (_report.Devices is { } devices) Row("Devices", [devices]);
        Findings("New", _report.Changes.Findings.Appeared);
        Findings("Changed", [.. _report.Changes.Findings.Turned.Where(turn => turn.IsMore).Select(turn => turn.New)], WasOf);
        Findings("Gone", _report.Changes.Findings.Gone);
        Findings("Accepted", [.. _report.Changes.Findings.Accepted.Select(accepted => accepted.Finding)]);
        var moved = _report.Changes.Findings.Turned.Count(turn => !turn.IsMore);
        if (moved > 0) Row("Details", [$"{Phrases.Count(moved, "finding")} with other details, such as times"]);
    }

    /// <summary>What a finding said before, where that was something else.</summary>
    private string? WasOf(Finding finding)
    {
        var was = _report.Changes.Findings.Turned.First(turn => ReferenceEquals(turn.New, finding)).Old.Heading;
        return was == finding.Heading ? null : $"was: {was}";
    }

    private void Findings(string label, IReadOnlyCollection<Finding> findings, Func<Finding, string?>? also = null)
    {
        var items = findings.Take(MostFindings)
            .SelectMany(finding => new[] { FindingWords.Of(finding), also?.Invoke(finding), FindingWords.PlaceOf(finding) }.OfType<string>());
        if (findings.Count > MostFindings) items = items.Append($"and {Phrases.Count(findings.Count - MostFindings, "more finding")}");
        foreach (var (index, item) in items.Index()) _lines.Line(LabelOf(index == 0 ? label : null) + item);
    }

    /// <summary>Items one after the other beside their label, broken between words.</summary>
    private void Row(string? label, IEnumerable<string> items, string between = "")
    {
        var all = items.ToList();
        if (all.Count == 0) return;
        var words = all.Select((item, index) => PlainLines.Shown(item) + (index + 1 < all.Count ? between : ""));
        foreach (var (index, line) in WordWrap.Of(string.Join(' ', words), Width - _column).Index())
            _lines.Line(LabelOf(index == 0 ? label : null) + (index == 0 ? line : line.TrimStart()));
    }

    /// <summary>Items under each other beside their label.</summary>
    private void Lines(string label, IEnumerable<string> items)
    {
        foreach (var (index, item) in items.Index()) Row(index == 0 ? label : null, [item]);
    }

    private string LabelOf(string? label)
    {
        if (label is null) return new string(' ', _column);
        var shown = PlainLines.Shown(label) + ":";
        return shown.Length < _column ? shown.PadRight(_column) : shown + " ";
    }
}
