using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Cli.LanguageServer.Files;
using WaterScript.Cli.LanguageServer.Protocol;
using WaterScript.Diagnostics;
using WaterScript.Editing;
using WaterScript.Linting.Engine;
using WaterScript.Text;

namespace WaterScript.Cli.LanguageServer.Features;

/// <summary>What is found in the files of some sites, for each file.</summary>
/// <param name="workspace">The documents.</param>
/// <param name="state">What the user has set.</param>
internal sealed class DocumentFindings(Snapshot workspace, ServerState state)
{
    private const int Unnecessary = 1;
    private const string TooLarge = "too large to check while typing; run waterscript check";

    private readonly Dictionary<string, List<Shown>> _byUri = new(StringComparer.Ordinal);

    /// <summary>All files with what is found in them; nothing, too, so that it is known that nothing is left.</summary>
    public IEnumerable<(string Uri, int? Version, IReadOnlyList<Diagnostic> Items)> All =>
        _byUri.OrderByDescending(file => VersionOf(file.Key) is not null).ThenBy(file => file.Key, StringComparer.Ordinal)
            .Select(file => (file.Key, VersionOf(file.Key), Of(file.Key)));

    /// <summary>What is found in a document.</summary>
    public IReadOnlyList<Diagnostic> Of(string uri) => [.. (_byUri.GetValueOrDefault(uri) ?? []).Select(shown => Diagnostic(shown, uri))];

    /// <summary>Takes in the findings of a site, in its files.</summary>
    public void Add(CheckedSite site)
    {
        foreach (var file in site.Reading.Files) ListOf(workspace.UriOf(file.Source));
        foreach (var finding in EditorFinding.Of(site))
        {
            if (finding.AcceptedBy is null || state.ShowsAccepted) Add(finding, site);
        }
    }

    /// <summary>Says of a document that it is not looked at.</summary>
    public void AddTooLarge(OpenDocument document)
    {
        var start = new Location(document.Source, new TextSpan(0, 0));
        ListOf(document.Uri).Add(new Shown(new EditorFinding(Finding.At(Diagnostics.Reading.ReadingRules.OverLimit, start, TooLarge) with
        {
            Severity = Severity.Advice,
        }), document.Source.Path, []));
    }

    /// <summary>A document in which nothing may be found.</summary>
    public List<Shown> ListOf(string uri)
    {
        if (!_byUri.TryGetValue(uri, out var list)) _byUri[uri] = list = [];
        return list;
    }

    /// <summary>Leaves out names that nobody knows at the place of the last edit: somebody is still writing one.</summary>
    /// <returns>Whether there was any.</returns>
    public bool HideUnfinished(OpenDocument document)
    {
        if (document.EditedAt is not { } place) return false;
        return ListOf(document.Uri).RemoveAll(shown => shown.Finding.Finding.Rule == Diagnostics.Reading.ReadingRules.UnknownName
            && ReferenceEquals(shown.Finding.Place.Source, document.Source) && shown.Finding.Place.Span.Start <= place
            && place <= shown.Finding.Place.Span.End) > 0;
    }

    /// <summary>A finding, for what corrects it.</summary>
    public Diagnostic Diagnostic(EditorFinding finding, string site) => Diagnostic(new Shown(finding, site, []), workspace.UriOf(finding.Place.Source));

    private void Add(EditorFinding finding, CheckedSite site)
    {
        var list = ListOf(workspace.UriOf(finding.Place.Source));
        var same = list.Find(shown => shown.Finding.Place == finding.Place && shown.Finding.Finding.Rule == finding.Finding.Rule
            && shown.Finding.Message == finding.Message && shown.Site != site.Path);
        if (same is null) list.Add(new Shown(finding, site.Path, []));
        else same.AlsoIn.Add((site.Path, RootOf(site)));
    }

    private static Location RootOf(CheckedSite site) => site.Reading.Site?.Origin
        ?? new Location(site.Reading.Files is [var root, ..] ? root.Source : site.Findings[0].Primary.Location.Source, new TextSpan(0, 0));

    private int? VersionOf(string uri) => workspace.Documents.Values.FirstOrDefault(open => open.Uri == uri)?.Version;

    private Diagnostic Diagnostic(Shown shown, string uri)
    {
        var (finding, rule) = (shown.Finding, shown.Finding.Finding.Rule);
        var related = finding.Related.Select(label => Related(label.Location, label.Text))
            .Concat(shown.AlsoIn.Select(site => Related(site.Place, $"in site {site.Site}"))).ToList();
        var place = finding.Place;
        return new Diagnostic
        {
            Range = Places.Of(place),
            Severity = finding.AcceptedBy is not null ? 4 : finding.Finding.Severity switch { Severity.Error => 1, Severity.Warning => 2, _ => 3 },
            Code = rule.Slug,
            Message = finding.Message,
            Tags = finding.IsOfNoEffect ? [Unnecessary] : null,
            RelatedInformation = related.Count == 0 ? null : related,
            Data = new FindingData(
                string.Create(CultureInfo.InvariantCulture, $"{rule.Slug}:{place.Start.Line}:{place.Start.Column}"),
                shown.Site,
                VersionOf(uri)),
        };
    }

    private RelatedPlace Related(Location place, string words) =>
        new(new DocumentRange(workspace.UriOf(place.Source), Places.Of(place)), DisplayLine.CleanLine(words));

    /// <summary>A finding that is shown.</summary>
    /// <param name="Finding">The finding.</param>
    /// <param name="Site">The root file of its site.</param>
    /// <param name="AlsoIn">Other sites that have it.</param>
    internal sealed record Shown(EditorFinding Finding, string Site, List<(string Site, Location Place)> AlsoIn);
}
