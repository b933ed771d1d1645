using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Editing.Names;
using WaterScript.Linting.Engine;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Editing.Changes;

/// <summary>What can be done at a place of a site.</summary>
internal static class Actions
{
    /// <summary>More at one place than people look through.</summary>
    private const int Most = 8;

    /// <summary>The actions at a stretch of a file, in the order in which they are to be shown.</summary>
    /// <param name="site">The site.</param>
    /// <param name="names">Its names.</param>
    /// <param name="file">The file.</param>
    /// <param name="span">What is selected, or the cursor.</param>
    public static IEnumerable<EditorAction> At(CheckedSite site, NameIndex names, FileNode file, TextSpan span)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(names);
        ArgumentNullException.ThrowIfNull(file);
        ImmutableArray<EditorFinding> findings =
            [.. EditorFinding.Of(site).Where(finding => ReferenceEquals(finding.Place.Source, file.Source) && Touches(finding.Place.Span, span))];
        IEnumerable<EditorAction> all =
        [
            .. FindingActions.Fixes(findings),
            .. FindingActions.Accepts(findings, new AcceptPlaces(file)),
            .. Gaps(site, names, file, span),
            .. Rewrites.At(site, names, file, span),
        ];
        return all.Take(Most);
    }

    private static bool Touches(TextSpan one, TextSpan other) => one.Start <= other.End && other.Start <= one.End;

    /// <summary>What would let more of a thing be checked, at its name. No value is guessed.</summary>
    private static IEnumerable<EditorAction> Gaps(CheckedSite site, NameIndex names, FileNode file, TextSpan span)
    {
        if (names.At(file.Source, span.Start) is not { IsDeclaration: true } use || names.DeclarationOf(use.Kind, use.Name) is not { } declared) yield break;
        if (declared.Node is not BlockNode block) yield break;
        var gaps = (site.Lint?.NotChecked ?? []).Where(gap => IsProperty(gap.Add)
            && gap.Of.Any(thing => thing.Kind == declared.Word && thing.Name == use.Name));
        if (declared.Word == "site" && ClimateAction(site, file.Source, block) is { } climate) yield return climate;
        foreach (var gap in gaps.GroupBy(gap => gap.Add))
        {
            var what = string.Join(", ", gap.Select(each => each.What).Distinct());
            yield return new EditorAction(EditorAction.QuickFix, $"Add {gap.Key} to {declared.Word} {use.Name} (not checked: {what})",
                [Added(file.Source, block, gap.Key)]);
        }
    }

    /// <summary>Twelve months without their values behind the site: the file has errors until somebody fills them, which no guess could do.</summary>
    private static EditorAction? ClimateAction(CheckedSite site, SourceText source, BlockNode block)
    {
        string[] without = [.. (site.Lint?.NotChecked ?? []).Where(gap => gap.Add == "climate").Select(gap => gap.What).Distinct()];
        if (without.Length == 0 || site.Reading.Site?.Climate is not null) return null;
        var months = string.Concat(Language.MonthNames.All.Select((month, index) =>
            index == 0 ? $"  {month}  # et in mm/day, or the coldest and warmest of a day in C; rain in mm\n" : $"  {month}\n"));
        return new EditorAction(EditorAction.QuickFix, $"Add a climate ({string.Join(", ", without)} is not checked)",
            [new TextEdit(new Location(source, new TextSpan(block.Span.End, 0)), $"\n\nclimate {{\n{months}}}")]);
    }

    private static bool IsProperty(string statement) => statement.Length > 0 && statement.All(letter => char.IsAsciiLetterLower(letter) || letter == '-');

    /// <summary>A property at the end of a block, without its value.</summary>
    private static TextEdit Added(SourceText source, BlockNode block, string property)
    {
        var end = block.Span.End - 1;
        while (end > block.Brace.End && char.IsWhiteSpace(source.Text[end - 1])) end--;
        var isOnOneLine = source.PositionOf(block.Span.Start).Line == source.PositionOf(block.Span.End).Line;
        var text = isOnOneLine ? $"{(block.Body.IsEmpty || source.Text[end - 1] == ';' ? " " : "; ")}{property} " : $"\n  {property} ";
        return new TextEdit(new Location(source, new TextSpan(end, 0)), text);
    }
}
