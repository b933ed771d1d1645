using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Text;
using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Documents.Reports;

/// <summary>Prints findings for people: heading, place, the lines with the cause underlined, the facts, a fix.</summary>
/// <param name="lines">Where to.</param>
internal sealed class FindingPrinter(PlainLines lines)
{
    private const string Indent = "  ";
    private const int LeastGutter = 6;

    private readonly ReportLayout _layout = ReportLayout.Of(lines);

    /// <summary>Whether all findings are shown, however many there are of one rule.</summary>
    public bool ShowsAll { get; init; }

    /// <summary>Prints one finding and a blank line after it.</summary>
    public void Print(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        Print(new FindingGroup(finding, []), accepted: false);
    }

    /// <summary>Prints the findings of a site: those that one cause has together, and what several assume once, after the last.</summary>
    public void Print(IEnumerable<Finding> findings)
    {
        ArgumentNullException.ThrowIfNull(findings);
        ImmutableArray<FindingGroup> groups = [.. FindingGroup.Of([.. findings], ShowsAll)];
        var shared = groups.Select(group => group.Finding.Assumed).Where(assumed => assumed.Length > 0).CountBy(assumed => assumed)
            .Where(count => count.Value > 1).Select(count => count.Key).ToHashSet();
        foreach (var group in groups) Print(group.Without(shared), accepted: false);
        foreach (var assumed in shared) PrintFact(FindingText.Assumption(assumed), indent: "");
        if (shared.Count > 0) lines.Line();
    }

    /// <summary>Prints a finding that the user accepts, without a fix, and a blank line after it.</summary>
    /// <param name="finding">What was found.</param>
    /// <param name="acceptance">The line that accepts it, with the reason.</param>
    public void PrintAccepted(Finding finding, Label acceptance)
    {
        ArgumentNullException.ThrowIfNull(finding);
        Print(new FindingGroup(finding with { Others = finding.Others.Add(acceptance), Help = "", Fix = null }, []), accepted: true);
    }

    private void Print(FindingGroup group, bool accepted)
    {
        var finding = group.Finding;
        var ink = accepted ? TextStyle.Accepted : InkOf(finding.Severity);
        PrintHeading(finding, accepted ? "accepted " : "", ink);
        var underlines = Marks(finding);
        var gutter = Math.Max(LeastGutter, Digits(underlines.Max(underline => underline.Line)) + Indent.Length);
        PrintPlaces(underlines, gutter, ink);
        foreach (var fact in FactsShown(finding)) PrintFact(fact, Indent);
        new FixPrinter(lines, _layout, gutter).Print(finding);
        foreach (var other in group.Others) PrintFact($"Also: {other.Heading} [{other.Rule.Slug}]", Indent);
        if (group.More > 0) PrintMore(group);
        lines.Line();
    }

    private void PrintHeading(Finding finding, string before, TextStyle ink) => lines.Line(
        (before + FindingSummary.WordOf(finding.Severity), ink),
        ($": {finding.Heading}", TextStyle.Strong),
        ($" [{finding.Rule.Slug}]", TextStyle.Plain));

    private void PrintPlaces(ImmutableArray<Underline> underlines, int gutter, TextStyle ink)
    {
        var excerpt = new ExcerptPrinter(lines, _layout, gutter);
        foreach (var file in underlines.GroupBy(underline => underline.Source))
        {
            PrintPlace(file.First().Place);
            if (_layout.IsTiny) return;
            excerpt.Print([.. file], ink);
        }
    }

    private void PrintPlace(Location place)
    {
        var (line, column) = place.Start;
        lines.Line((string.Create(CultureInfo.InvariantCulture, $"{Indent}{place.Source.Path}:{line}:{column}"), TextStyle.Blue));
    }

    private IEnumerable<string> FactsShown(Finding finding) => !_layout.IsTiny ? FindingText.Facts(finding)
        : FindingText.When(finding) is { Length: > 0 } when ? [when] : [];

    private void PrintFact(string fact, string indent)
    {
        foreach (var line in WordWrap.Of(fact, _layout.Columns - indent.Length)) lines.Line(indent + line);
    }

    private void PrintMore(FindingGroup group)
    {
        lines.Line();
        lines.Line(string.Create(CultureInfo.InvariantCulture, $"and {group.More} more [{group.Finding.Rule.Slug}]; --all shows them"));
    }

    private static ImmutableArray<Underline> Marks(Finding finding) =>
    [
        .. Underline.Of(finding.Primary, isPrimary: true),
        .. finding.Others.SelectMany(label => Underline.Of(label, isPrimary: false)),
    ];

    private static TextStyle InkOf(Severity severity) => severity switch
    {
        Severity.Error => TextStyle.Red,
        Severity.Warning => TextStyle.Yellow,
        _ => TextStyle.Cyan,
    };

    private static int Digits(int number) => number.ToString(CultureInfo.InvariantCulture).Length;
}
