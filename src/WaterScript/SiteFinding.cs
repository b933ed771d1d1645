using System.Collections.Immutable;
using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Wording;

namespace WaterScript;

/// <summary>One thing found in a site: a heading, the place that causes it, and what to do about it.</summary>
public sealed class SiteFinding
{
    internal SiteFinding(Finding finding)
    {
        Rule = finding.Rule.Slug;
        Severity = (FindingSeverity)finding.Severity;
        Heading = finding.Heading;
        Place = new SourcePlace(finding.Primary.Location);
        PlaceWords = finding.Primary.Text;
        Others = [.. finding.Others.Select(label => new FindingLabel(label))];
        Details = finding.Details;
        Assumed = finding.Assumed;
        Help = finding.Help;
        First = finding.Happens?.First;
        Last = finding.Happens?.Last;
        Times = finding.Happens?.Times ?? 0;
        Fix = finding.Fix is { } fix ? new FindingFix(fix) : null;
    }

    /// <summary>The rule that found it, as in <c>accept RULE because "…"</c>: lower-case words joined by hyphens.</summary>
    public string Rule { get; }

    /// <summary>How much it weighs.</summary>
    public FindingSeverity Severity { get; }

    /// <summary>A line without a capital or a full stop that names what was found: <c>no zone is called "lawm"</c>.</summary>
    public string Heading { get; }

    /// <summary>The place that causes it.</summary>
    public SourcePlace Place { get; }

    /// <summary>What is said beside that place; empty where the heading says it all.</summary>
    public string PlaceWords { get; }

    /// <summary>Further places that explain it, such as the first of two equal names; may be empty.</summary>
    public ImmutableArray<FindingLabel> Others { get; }

    /// <summary>Sentences, one a line; may be empty.</summary>
    public string Details { get; }

    /// <summary>What was taken for granted because the source does not say it, as sentences, one a line; may be empty.</summary>
    public string Assumed { get; }

    /// <summary>What to do about it, as an imperative sentence; may be empty.</summary>
    public string Help { get; }

    /// <summary>When it happens for the first time, by the clocks of the site; null for what does not happen in time.</summary>
    public LocalDateTime? First { get; }

    /// <summary>When it happens for the last time on the dates that were looked at, by the clocks of the site; null for what does not happen in time.</summary>
    public LocalDateTime? Last { get; }

    /// <summary>How often it happens on those dates; 0 for what does not happen in time.</summary>
    public long Times { get; }

    /// <summary>A change of the sources that fixes it, or null.</summary>
    public FindingFix? Fix { get; }

    /// <summary>One line: <c>garden.water:3:7: error: no zone is called "lawm" [unknown-name]</c>.</summary>
    public override string ToString() => $"{Place}: {FindingSummary.WordOf((Severity)Severity)}: {Heading} [{Rule}]";
}

/// <summary>A further place that explains a finding.</summary>
public sealed class FindingLabel
{
    internal FindingLabel(Label label)
    {
        Place = new SourcePlace(label.Location);
        Words = label.Text;
    }

    /// <summary>The place.</summary>
    public SourcePlace Place { get; }

    /// <summary>What is said beside it; may be empty.</summary>
    public string Words { get; }
}
