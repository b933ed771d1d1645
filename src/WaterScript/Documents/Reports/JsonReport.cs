using NodaTime;
using NodaTime.Text;
using WaterScript.Diagnostics;
using WaterScript.Documents.Writers;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Proof;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Documents.Reports;

/// <summary>What was found in some sites, as JSON for programs.</summary>
public sealed class JsonReport
{
    private const int Version = 1;
    private static readonly LocalDateTimePattern Moment = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss");
    private readonly JsonWriter _json;
    private readonly bool _showsAccepted;

    private JsonReport(JsonWriter json, bool showsAccepted) => (_json, _showsAccepted) = (json, showsAccepted);

    /// <summary>Writes what was found.</summary>
    /// <param name="sites">In the order in which they are to stand.</param>
    /// <param name="showsAccepted">Whether what is accepted is listed too.</param>
    /// <param name="output">Stays open.</param>
    public static void Write(IEnumerable<CheckedSite> sites, bool showsAccepted, Stream output)
    {
        ArgumentNullException.ThrowIfNull(sites);
        using var json = new JsonWriter(output, isIndented: true);
        var report = new JsonReport(json, showsAccepted);
        json.Map(() =>
        {
            json.Entry("waterscript_report", Version);
            json.List("sites", sites, report.Site);
        });
    }

    private void Site(CheckedSite site) => _json.Map(() =>
    {
        _json.Entry("name", site.Name);
        _json.Entry("file", site.Path);
        _json.List("files", site.Reading.Files, file => _json.Text(file.Source.Path));
        if (site.Lint is { } lint) _json.Map("checked", () => Checked(lint));
        _json.Map("tally", () => Tallies(site));
        _json.List("findings", site.Findings, finding => _json.Map(() => Content(finding)));
        if (_showsAccepted) _json.List("accepted", site.Accepted, Accepted);
    });

    private void Checked(LintReport lint)
    {
        _json.Entry("from", LocalDatePattern.Iso.Format(lint.Horizon.From));
        _json.Entry("until", LocalDatePattern.Iso.Format(lint.Horizon.Until));
        _json.List("areas", RuleCategories.All, category => _json.Text(RuleCategories.NameOf(category)));
        _json.List("not_checked", lint.NotChecked, _json.Text);
        if (lint.ConflictProof is { } conflictProof) _json.Map("decided", () => Decided(conflictProof));
    }

    private void Decided(ConflictProof conflictProof)
    {
        _json.Entry("until", LocalDatePattern.Iso.Format(conflictProof.Until));
        _json.List("but_for", conflictProof.Moving, _json.Text);
        _json.Entry("all_pairs", conflictProof.IsWhole);
    }

    private void Tallies(CheckedSite site)
    {
        _json.Entry("errors", site.Findings.Count(finding => finding.Severity == Severity.Error));
        _json.Entry("warnings", site.Findings.Count(finding => finding.Severity == Severity.Warning));
        _json.Entry("advice", site.Findings.Count(finding => finding.Severity == Severity.Advice));
        _json.Entry("accepted", site.Accepted.Length);
        _json.Entry("in_baseline", site.InBaseline);
    }

    private void Accepted(AcceptedFinding entry) => _json.Map(() =>
    {
        Content(entry.Finding);
        _json.Entry("because", entry.Acceptance.Because);
        _json.Map("accepted_at", () => Place(entry.Acceptance.Origin));
    });

    private void Content(Finding finding)
    {
        _json.Entry("rule", finding.Rule.Slug);
        _json.Entry("severity", FindingSummary.WordOf(finding.Severity));
        _json.Entry("heading", finding.Heading);
        _json.Map("place", () => Labelled(finding.Primary));
        _json.List("others", finding.Others, label => _json.Map(() => Labelled(label)));
        if (finding.Happens is { } occurrences) _json.Map("happens", () => When(occurrences));
        EntryUnlessEmpty("details", finding.Details);
        EntryUnlessEmpty("assumed", finding.Assumed);
        EntryUnlessEmpty("way_out", FindingText.Help(finding));
        if (finding.Fix is { } fix) _json.Map("fix", () => Fix(fix));
    }

    private void When(Occurrences occurrences)
    {
        _json.Entry("first", Say(occurrences.First, occurrences));
        _json.Entry("last", Say(occurrences.Last, occurrences));
        _json.Entry("times", occurrences.Times);
        _json.Entry("days", occurrences.Days);
        _json.Entry("decided", ReportWords.Of(occurrences.Basis));
    }

    private static string Say(LocalDateTime moment, Occurrences occurrences) =>
        occurrences.IsWholeDays ? LocalDatePattern.Iso.Format(moment.Date) : Moment.Format(moment);

    private void Fix(Fix fix)
    {
        _json.Entry("title", fix.Title);
        _json.Entry("safe", fix.IsSafe);
        _json.List("edits", fix.Edits, edit => _json.Map(() =>
        {
            Place(edit.Location);
            _json.Entry("replacement", edit.Replacement);
        }));
    }

    private void Labelled(Label label)
    {
        Place(label.Location);
        EntryUnlessEmpty("label", label.Text);
    }

    private void Place(Location place) => PlaceFields.Write(_json, place);

    private void EntryUnlessEmpty(string key, string value) => _json.Entry(key, value.Length == 0 ? null : value);
}
