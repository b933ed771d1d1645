using System.Text;
using WaterScript.Text;

namespace WaterScript.Diagnostics;

/// <summary>Carries out the edits of fixes.</summary>
internal static class Edits
{
    /// <summary>A file with its edits made. Of two that overlap the later one is left out; edits of other files do nothing.</summary>
    public static SourceText Apply(SourceText source, IEnumerable<TextEdit> edits)
    {
        var text = new StringBuilder(source.HasByteOrderMark ? SourceText.ByteOrderMark.ToString() : "");
        var end = 0;
        foreach (var edit in edits.Where(edit => ReferenceEquals(edit.Location.Source, source)).OrderBy(edit => edit.Location.Span.Start))
        {
            var span = edit.Location.Span;
            if (span.Start < end) continue;
            text.Append(source.Text, end, span.Start - end).Append(edit.Replacement);
            end = span.End;
        }

        return SourceText.From(source.Path, text.Append(source.Text, end, source.Text.Length - end).ToString());
    }
}
