using System.Collections.Immutable;
using System.Text;
using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Linting.Fixes;

/// <summary>Fixes that can be applied together, because none touches what another changes.</summary>
internal static class FixSet
{
    private const char ByteOrderMark = '\uFEFF';

    /// <summary>As many of some fixes as can be applied together: in order of place, each that overlaps none before it.</summary>
    public static ImmutableArray<Fix> Together(IEnumerable<Fix> fixes)
    {
        var taken = new Dictionary<string, List<TextSpan>>(StringComparer.Ordinal);
        var together = ImmutableArray.CreateBuilder<Fix>();
        foreach (var fix in fixes.Where(fix => !fix.Edits.IsEmpty).OrderBy(fix => fix.Edits[0].Location.Source.Path, StringComparer.Ordinal)
            .ThenBy(fix => fix.Edits[0].Location.Span.Start))
        {
            if (fix.Edits.Any(edit => taken.GetValueOrDefault(edit.Location.Source.Path)?.Exists(span => Touch(span, edit.Location.Span)) == true)) continue;
            foreach (var edit in fix.Edits)
            {
                if (!taken.TryGetValue(edit.Location.Source.Path, out var spans)) taken[edit.Location.Source.Path] = spans = [];
                spans.Add(edit.Location.Span);
            }

            together.Add(fix);
        }

        return together.ToImmutable();
    }

    /// <summary>The texts that come of applying fixes, which do not overlap, by the paths of the files that they change.</summary>
    public static ImmutableDictionary<string, SourceText> Apply(IEnumerable<Fix> fixes) => fixes
        .SelectMany(fix => fix.Edits)
        .GroupBy(edit => edit.Location.Source.Path, StringComparer.Ordinal)
        .ToImmutableDictionary(file => file.Key, file => Changed(file.First().Location.Source, file.OrderBy(edit => edit.Location.Span.Start)),
            StringComparer.Ordinal);

    /// <summary>The source with replacements in the file's own line ends; a byte-order mark stays.</summary>
    private static SourceText Changed(SourceText source, IEnumerable<TextEdit> edits)
    {
        var lineEnd = source.Text.Contains("\r\n", StringComparison.Ordinal) ? "\r\n" : "\n";
        var text = new StringBuilder(source.HasByteOrderMark ? ByteOrderMark.ToString() : "");
        var at = 0;
        foreach (var (location, replacement) in edits)
        {
            text.Append(source.Text, at, location.Span.Start - at).Append(replacement.ReplaceLineEndings(lineEnd));
            at = location.Span.End;
        }

        return SourceText.From(source.Path, text.Append(source.Text, at, source.Text.Length - at).ToString());
    }

    /// <summary>Whether two changes overlap, or begin at one place so that their order would be a guess.</summary>
    private static bool Touch(TextSpan first, TextSpan second) =>
        first.Start == second.Start || (first.Start < second.End && second.Start < first.End);
}
