using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using NodaTime.Text;
using WaterScript.Diagnostics;
using WaterScript.Documents.Writers;
using WaterScript.Linting.Baselines;
using WaterScript.Linting.Engine;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Documents.Reports;

/// <summary>
/// What was found in some sites, in the Static Analysis Results Interchange Format 2.1.0 (OASIS standard, errata 01). It is written by hand: its schema is
/// not ours to export, and the 235 kB of a small report, most of them the pages of the rules, take 5 ms.
/// </summary>
internal sealed class SarifReport
{
    private const string Schema = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";
    private const string Base = "%SRCROOT%";
    private const string Fingerprint = "waterscriptFinding/v2";

    private readonly JsonWriter _json;
    private readonly ImmutableArray<CheckedSite> _sites;
    private readonly bool _showsAccepted;
    private readonly ImmutableArray<Rule> _rules = RuleCatalogue.Rules;
    private readonly ImmutableArray<string> _paths;

    private SarifReport(JsonWriter json, ImmutableArray<CheckedSite> sites, bool showsAccepted)
    {
        (_json, _sites, _showsAccepted) = (json, sites, showsAccepted);
        _paths = [.. sites.SelectMany(site => site.Reading.Files.Select(file => file.Source.Path).Prepend(site.Path)).Distinct()];
    }

    /// <summary>Writes what was found.</summary>
    /// <param name="sites">In the order in which they are to stand.</param>
    /// <param name="showsAccepted">Whether what is accepted is listed too, as suppressed.</param>
    /// <param name="program">What wrote it.</param>
    /// <param name="output">Stays open.</param>
    public static void Write(ImmutableArray<CheckedSite> sites, bool showsAccepted, ReportingProgram program, Stream output)
    {
        using var json = new JsonWriter(output, isIndented: true);
        var report = new SarifReport(json, sites, showsAccepted);
        json.Map(() =>
        {
            json.Entry("$schema", Schema);
            json.Entry("version", "2.1.0");
            json.List("runs", [program], report.Run);
        });
    }

    private void Run(ReportingProgram program) => _json.Map(() =>
    {
        _json.Map("tool", () => _json.Map("driver", () => Driver(program)));
        _json.Entry("columnKind", "utf16CodeUnits");
        _json.Map("originalUriBaseIds", () => _json.Map(Base, () => Text("description", "The folder in which the check was started.")));
        _json.List("artifacts", _paths, Artifact);
        _json.List("results", Results(), result => _json.Map(() => Result(result.Finding, result.Accepted)));
        _json.Map("properties", () => _json.List("sites", _sites, Site));
    });

    private void Driver(ReportingProgram program)
    {
        _json.Entry("name", "WaterScript");
        _json.Entry("version", program.Version);
        _json.Entry("semanticVersion", program.Version);
        if (program.Home is { } home) _json.Entry("informationUri", home);
        _json.Entry("language", "en");
        _json.List("rules", _rules, Rule);
    }

    private void Rule(Rule rule) => _json.Map(() =>
    {
        var page = RulePage.Of(rule);
        _json.Entry("id", rule.Slug);
        Text("shortDescription", char.ToUpperInvariant(rule.Title[0]) + rule.Title[1..] + ".");
        Text("fullDescription", rule.Finds.ReplaceLineEndings("\n"));
        _json.Map("help", () =>
        {
            _json.Entry("text", page);
            _json.Entry("markdown", page);
        });
        _json.Map("defaultConfiguration", () => _json.Entry("level", LevelOf(rule.Severity)));
        _json.Map("properties", () => _json.List("tags", [RuleCategories.NameOf(rule.Category)], _json.Text));
    });

    private void Artifact(string path) => _json.Map(() =>
    {
        _json.Map("location", () => Uri(path));
        _json.Entry("encoding", "UTF-8");
    });

    private IEnumerable<(Finding Finding, AcceptedFinding? Accepted)> Results()
    {
        foreach (var site in _sites)
        {
            foreach (var finding in site.Findings) yield return (finding, null);
            if (!_showsAccepted) continue;
            foreach (var accepted in site.Accepted) yield return (accepted.Finding, accepted);
        }
    }

    private void Result(Finding finding, AcceptedFinding? accepted)
    {
        _json.Entry("ruleId", finding.Rule.Slug);
        if (_rules.IndexOf(finding.Rule) is >= 0 and var index) _json.Entry("ruleIndex", index);
        _json.Entry("level", LevelOf(finding.Severity));
        Text("message", FindingText.Of(finding));
        _json.List("locations", [finding.Primary], label => _json.Map(() => Labelled(label)));
        _json.List("relatedLocations", finding.Others.Select((label, id) => (label, id)), other => _json.Map(() =>
        {
            _json.Entry("id", other.id + 1);
            Labelled(other.label);
        }));
        if (finding.Happens is { } occurrences)
        {
            _json.Entry("occurrenceCount", occurrences.Times);
            _json.Map("properties", () => _json.Entry("decided", ReportWords.Of(occurrences.Basis)));
        }

        _json.Map("partialFingerprints", () => _json.Entry(Fingerprint, HashOf(finding)));
        if (_showsAccepted) _json.List("suppressions", accepted is null ? Enumerable.Empty<AcceptedFinding>() : [accepted], Suppression);
        if (finding.Fix is { } fix) _json.List("fixes", [fix], Fix);
    }

    private void Suppression(AcceptedFinding accepted) => _json.Map(() =>
    {
        _json.Entry("kind", "inSource");
        _json.Entry("status", "accepted");
        _json.Entry("justification", DisplayLine.CleanLine(accepted.Acceptance.Because));
        _json.Map("location", () => Physical(accepted.Acceptance.Origin));
    });

    private void Fix(Fix fix) => _json.Map(() =>
    {
        Text("description", DisplayLine.CleanLine(fix.Title));
        _json.List("artifactChanges", fix.Edits.GroupBy(edit => edit.Location.Source), file => _json.Map(() =>
        {
            _json.Map("artifactLocation", () => Uri(file.Key.Path));
            _json.List("replacements", file, edit => _json.Map(() =>
            {
                _json.Map("deletedRegion", () => Region(edit.Location));
                if (edit.Replacement.Length > 0) Text("insertedContent", edit.Replacement);
            }));
        }));
        _json.Map("properties", () => _json.Entry("safe", fix.IsSafe));
    });

    private void Site(CheckedSite site) => _json.Map(() =>
    {
        _json.Entry("name", site.Name);
        _json.Entry("file", site.Path);
        if (site.Reading.Site is { } read) _json.Entry("timezoneData", read.TimeZoneData);
        if (site.Lint is not { } lint) return;
        _json.Entry("checkedFrom", LocalDatePattern.Iso.Format(lint.Horizon.From));
        _json.Entry("checkedUntil", LocalDatePattern.Iso.Format(lint.Horizon.Until));
        _json.List("checkedAreas", RuleCategories.All, category => _json.Text(RuleCategories.NameOf(category)));
        _json.List("notChecked", lint.NotChecked, gap => _json.Text(gap.Sentence));
        if (lint.ConflictProof is not { } conflictProof) return;
        _json.Entry("decidedUntil", LocalDatePattern.Iso.Format(conflictProof.Until));
        _json.List("decidedButFor", conflictProof.Moving, _json.Text);
        _json.Entry("decidedForAllPairs", conflictProof.IsWhole);
    });

    private void Labelled(Label label)
    {
        Physical(label.Location);
        if (label.Text.Length > 0) Text("message", DisplayLine.CleanLine(label.Text));
    }

    private void Physical(Location place) => _json.Map("physicalLocation", () =>
    {
        _json.Map("artifactLocation", () => Uri(place.Source.Path));
        _json.Map("region", () => Region(place));
    });

    private void Region(Location place)
    {
        _json.Entry("startLine", place.Start.Line);
        _json.Entry("startColumn", place.Start.Column);
        _json.Entry("endLine", place.End.Line);
        _json.Entry("endColumn", place.End.Column);
    }

    private void Uri(string path)
    {
        _json.Entry("uri", FileUri.Of(path));
        if (!FileUri.IsAbsolute(path)) _json.Entry("uriBaseId", Base);
        if (_paths.IndexOf(path) is >= 0 and var index) _json.Entry("index", index);
    }

    private void Text(string key, string text) => _json.Map(key, () => _json.Entry("text", text));

    private static string LevelOf(Severity severity) => severity switch
    {
        Severity.Error => "error",
        Severity.Warning => "warning",
        _ => "note",
    };

    /// <summary>
    /// The rule, the text of the line and roughly how bad it is: an edit elsewhere, or another name for the file, does not make it another finding, and what
    /// gets much worse is one.
    /// </summary>
    private static string HashOf(Finding finding)
    {
        var key = FindingKey.Of(finding);
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"{key.Rule}\n{key.Line}\n{FindingExtent.Of(finding).Band}")));
    }
}
