using System.ComponentModel;
using System.Text.Json.Serialization;
using NodaTime;
using NodaTime.Text;
using WaterScript.Diagnostics;
using WaterScript.Documents.Writers;
using WaterScript.Linting.Engine;
using WaterScript.Wording;

namespace WaterScript.Documents.Reports;

/// <summary>A finding, for programs.</summary>
internal class FindingItem(Finding finding)
{
    [Description("`waterscript explain` and docs/rules describe it."), Shape(Of = ShapeAttribute.Slug)]
    public string Rule => finding.Rule.Slug;

    [Shape(Words = ["error", "warning", "advice"])]
    public string Severity => FindingSummary.WordOf(finding.Severity);

    [Description("What was found.")]
    public string Heading => finding.Heading;

    [Description("What causes it.")]
    public LabelledItem Place => new(finding.Primary);

    [Description("Further places that explain it.")]
    public IEnumerable<LabelledItem> Others => finding.Others.Select(label => new LabelledItem(label));

    [Description("When, for what happens in time; by the site's clock.")]
    public HappensItem? Happens => finding.Happens is { } occurrences ? new(occurrences) : null;

    [Description("Sentences, one a line.")]
    public string? Details => UnlessEmpty(string.Join('\n', new[] { finding.Details, finding.InPass }.Where(text => text.Length > 0)));

    [Description("What was taken for granted because the source does not say it.")]
    public string? Assumed => UnlessEmpty(finding.Assumed);

    [Description("What to do about it.")]
    public string? Help => UnlessEmpty(FindingText.Help(finding));

    public FixItem? Fix => finding.Fix is { } fix ? new(fix) : null;

    private static string? UnlessEmpty(string text) => text.Length == 0 ? null : text;
}

/// <summary>A finding that is accepted.</summary>
internal sealed class AcceptedItem(AcceptedFinding accepted) : FindingItem(accepted.Finding)
{
    [Description("The reason given."), JsonPropertyOrder(1)]
    public string Because => accepted.Acceptance.Because;

    [JsonPropertyOrder(1)]
    public PlaceItem AcceptedAt => new(accepted.Acceptance.Origin);
}

/// <summary>When a finding happens.</summary>
internal sealed class HappensItem(Occurrences occurrences)
{
    private static readonly LocalDateTimePattern Moment = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss");

    [Shape(Of = ShapeAttribute.Clock)]
    public string First => Say(occurrences.First);

    [Shape(Of = ShapeAttribute.Clock)]
    public string Last => Say(occurrences.Last);

    [Description("How often."), Shape(Least = 1)]
    public long Times => occurrences.Times;

    [Description("On how many dates."), Shape(Least = 1)]
    public long Days => occurrences.Days;

    [Description("What it rests on: the dates that were looked at, 400 years of the calendar, or arithmetic."),
        Shape(Words = ["over-horizon", "over-400-years", "for-ever"])]
    public string Decided => ReportWords.Of(occurrences.Basis);

    private string Say(LocalDateTime moment) => occurrences.IsWholeDays ? LocalDatePattern.Iso.Format(moment.Date) : Moment.Format(moment);
}

/// <summary>A fix.</summary>
internal sealed class FixItem(Fix fix)
{
    [Description("What it does.")]
    public string Title => fix.Title;

    [Description("Whether `--fix` applies it by itself.")]
    public bool Safe => fix.IsSafe;

    [Description("To be applied together.")]
    public IEnumerable<EditItem> Edits => fix.Edits.Select(edit => new EditItem(edit.Location, edit.Replacement));
}
