using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Documents.Reports;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Editing;

/// <summary>A finding as an editor shows it, where the source is in view.</summary>
/// <param name="Finding">The finding.</param>
/// <param name="AcceptedBy">The line that accepts it; null for one that counts.</param>
internal sealed record EditorFinding(Finding Finding, Acceptance? AcceptedBy = null)
{
    private const int MostRelated = 4;

    /// <summary>Rules about what has no effect, which editors show pale.</summary>
    private static readonly ImmutableArray<string> OfNoEffect = ["unused", "unused-accept", "never-due"];

    /// <summary>The findings of a site, in the order of its report, then what is accepted.</summary>
    public static IEnumerable<EditorFinding> Of(CheckedSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Findings.Select(finding => new EditorFinding(finding))
            .Concat(site.Accepted.Select(accepted => new EditorFinding(accepted.Finding, accepted.Acceptance)));
    }

    /// <summary>What is marked: the cause, to the end of its first line.</summary>
    public Location Place => FirstLine(Finding.Primary.Location);

    /// <summary>The heading, then the facts, a line each. The fix is offered beside it, the source is in view.</summary>
    public string Message
    {
        get
        {
            var lines = FindingText.Facts(Finding).Prepend(Finding.Heading).Select(DisplayLine.CleanLine).Where(line => line.Length > 0);
            return (AcceptedBy is null ? "" : "accepted: ") + string.Join('\n', lines);
        }
    }

    /// <summary>Further places that explain it, in the order of the source, with what is said there.</summary>
    public IEnumerable<Label> Related
    {
        get
        {
            var others = Finding.Others.Where(label => label.Text.Length > 0).OrderBy(label => !ReferenceEquals(label.Location.Source, Place.Source))
                .ThenBy(label => label.Location.Source.Path, StringComparer.Ordinal).ThenBy(label => label.Location.Span.Start).Take(MostRelated);
            return AcceptedBy is { } accept ? others.Append(new Label(accept.Origin, $"accepted here: {accept.Because}")) : others;
        }
    }

    /// <summary>Whether it is about what has no effect. What is accepted runs, and must not look as if it did not.</summary>
    public bool IsOfNoEffect => AcceptedBy is null && OfNoEffect.Contains(Finding.Rule.Slug);

    private static Location FirstLine(Location place)
    {
        var end = Math.Max(place.Span.Start, Math.Min(place.Span.End, place.Source.LineSpan(place.Start.Line).End));
        return place with { Span = TextSpan.FromBounds(place.Span.Start, end) };
    }
}
