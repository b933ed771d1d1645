using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Editing.Changes;

/// <summary>What can be done about findings: the fix that they have, or a line that accepts them.</summary>
internal static class FindingActions
{
    /// <summary>What corrects findings. One edit that corrects several is offered once.</summary>
    public static IEnumerable<EditorAction> Fixes(IReadOnlyList<EditorFinding> findings)
    {
        ArgumentNullException.ThrowIfNull(findings);
        var actions = new List<EditorAction>();
        foreach (var finding in findings.Where(finding => finding.Finding.Fix is { Edits.IsEmpty: false }))
        {
            var fix = finding.Finding.Fix!;
            var same = actions.FindIndex(action => action.Edits.SequenceEqual(fix.Edits));
            if (same < 0) actions.Add(new EditorAction(EditorAction.QuickFix, TitleOf(finding.Finding, fix), fix.Edits) { Corrects = [finding] });
            else actions[same] = actions[same] with { Corrects = actions[same].Corrects.Add(finding) };
        }

        var safe = actions.Where(action => action.Corrects[0].Finding.Fix!.IsSafe).ToList();
        return [.. safe.Select(action => action with { IsPreferred = safe.Count == 1 }), .. actions.Except(safe)];
    }

    /// <summary>Lines that accept findings, each in the least block that takes one.</summary>
    public static IEnumerable<EditorAction> Accepts(IReadOnlyList<EditorFinding> findings, AcceptPlaces places)
    {
        ArgumentNullException.ThrowIfNull(findings);
        ArgumentNullException.ThrowIfNull(places);
        return findings.Where(finding => finding is { AcceptedBy: null, Finding.Rule.CanBeAccepted: true })
            .DistinctBy(finding => finding.Finding.Rule.Slug)
            .Select(finding => new EditorAction(EditorAction.QuickFix, $"Accept {finding.Finding.Rule.Slug} here, because …",
                [places.EditFor(finding.Finding.Primary.Location, $"accept {finding.Finding.Rule.Slug} because \"\"")])
            {
                Corrects = [finding],
            });
    }

    /// <summary>What a fix does, and what it changes beside the text.</summary>
    private static string TitleOf(Finding finding, Fix fix)
    {
        var words = DisplayLine.CleanLine(fix.Title.Replace("`", "", StringComparison.Ordinal).TrimEnd('.'));
        var title = words.Length == 0 ? finding.Rule.Slug : char.ToUpperInvariant(words[0]) + words[1..];
        if (fix.IsSafe) return title;
        return $"{title} ({(finding.Rule.Category == RuleCategory.Reading ? "if that is meant" : "changes the watering")})";
    }
}
