using System.Collections.Immutable;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Text;

namespace WaterScript.Editing.Changes;

/// <summary>All safe fixes at once, as <c>check --fix</c> makes them: each is tried, and none of them gives a new error.</summary>
internal static class SafeFixAction
{
    /// <summary>Corrects all in a site that can be without a change of the watering; null where there is nothing.</summary>
    /// <param name="site">The site.</param>
    /// <param name="source">The file that somebody looks at.</param>
    public static EditorAction? Of(CheckedSite site, SourceText source)
    {
        ArgumentNullException.ThrowIfNull(site);
        if (site.Reading.Again is not { } again || !site.Findings.Any(finding => finding.Fix is { IsSafe: true })) return null;
        var target = new FixTarget(texts => CheckedSite.Untried(site.Path, texts.IsEmpty ? site.Reading : again(texts)));
        var corrected = new FixApplier([target]).Fix(target);
        if (corrected.Applied.IsEmpty) return null;
        var edits = corrected.Changed.SelectMany(changed => Layout.Between(OldOf(site, changed), changed.Text)).ToImmutableArray();
        var where = corrected.Changed.Any(changed => changed.Path != source.Path) ? "in this site" : "in this file";
        return new EditorAction(EditorAction.FixAll, $"Fix all that leaves the watering as it is: {corrected.Applied.Length} {where}", edits);
    }

    private static SourceText OldOf(CheckedSite site, SourceText changed) => site.Reading.Files.First(file => file.Source.Path == changed.Path).Source;
}
