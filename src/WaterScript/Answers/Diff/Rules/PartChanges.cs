using System.Collections.Immutable;
using WaterScript.Answers.Diff.Words;
using WaterScript.Answers.Diff.Written;
using WaterScript.Syntax;
using WaterScript.Text;
using WaterScript.Text.Diffs;
using WaterScript.Text.Lines;

namespace WaterScript.Answers.Diff.Rules;

/// <summary>What changes in the words of one file, of which nobody knows what it waters: a part without its site, or a site with an error.</summary>
internal static class PartChanges
{
    /// <summary>Writes it; where the words say nothing, the lines that differ.</summary>
    /// <param name="old">The file as it was; null where there was none.</param>
    /// <param name="new">The file as it is; null where there is none.</param>
    /// <param name="lines">Where to.</param>
    public static void Write(SourceText? old, SourceText? @new, PlainLines lines)
    {
        ArgumentNullException.ThrowIfNull(lines);
        var rows = Rows(old, @new);
        foreach (var row in rows) lines.Line(row);
        if (rows.IsEmpty) UnifiedDiff.Write((old ?? @new)!.Path, (@new ?? old)!.Path, old?.Text ?? "", @new?.Text ?? "", lines);
    }

    /// <summary>What is written otherwise, thing by thing; nothing where only layout and comments are.</summary>
    /// <param name="old">The file as it was; null where there was none.</param>
    /// <param name="new">The file as it is; null where there is none.</param>
    public static ImmutableArray<string> Rows(SourceText? old, SourceText? @new) =>
        [.. CauseRows.Of(Between(ThingsOf(old), ThingsOf(@new)), []).Select(row => $"{row.Label}: {string.Join("; ", row.Texts)}")];

    private static ImmutableArray<WrittenThing> ThingsOf(SourceText? source) =>
        source is null ? [] : WrittenSite.Of([Parser.Parse(source, [])], hasRules: true);

    private static ImmutableArray<WrittenChange> Between(ImmutableArray<WrittenThing> old, ImmutableArray<WrittenThing> @new) =>
        WrittenChanges.Between(old, @new, Renames.None);
}
