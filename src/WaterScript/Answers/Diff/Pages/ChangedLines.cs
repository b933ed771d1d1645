using System.Globalization;
using WaterScript.Documents.Charts.Pages;
using WaterScript.Text;
using WaterScript.Text.Diffs;

namespace WaterScript.Answers.Diff.Pages;

/// <summary>The lines that changed, file by file, with those around them.</summary>
internal static class ChangedLines
{
    private const int Around = 2;
    private const int MostLines = 2_000;

    /// <summary>Writes them. Files are paired by their paths, and the first with the first.</summary>
    public static void Write(MarkupWriter markup, IReadOnlyList<SourceText> old, IReadOnlyList<SourceText> @new)
    {
        var left = MostLines;
        foreach (var (index, file) in @new.Index())
        {
            var was = index == 0 && old.Count > 0 ? old[0] : old.FirstOrDefault(each => each.Path == file.Path);
            if (left > 0) WriteFile(markup, was is null ? [] : LinesOf(was), LinesOf(file), file.Path, ref left);
        }
    }

    private static string[] LinesOf(SourceText file) => [.. Enumerable.Range(1, file.LineCount).Select(line => file.Slice(file.LineSpan(line)))];

    private static void WriteFile(MarkupWriter markup, string[] old, string[] @new, string path, ref int left)
    {
        var changes = LineChanges.Between(old, @new);
        if (changes.Count == 0) return;
        markup.Element("h2", $"The lines that changed, {DisplayLine.CleanLine(path)}")
            .Open("div", ("class", "source"), ("tabindex", "0"), ("role", "group"), ("aria-label", "The lines that changed"));
        var shown = 0;
        foreach (var change in changes)
        {
            for (var line = Math.Max(shown, change.NewStart - Around); line < change.NewStart; line++)
                WriteLine(markup, " ", line, @new[line], "plain", ref left);
            for (var line = change.OldStart; line < change.OldEnd; line++) WriteLine(markup, "−", line, old[line], "gone", ref left);
            for (var line = change.NewStart; line < change.NewEnd; line++) WriteLine(markup, "+", line, @new[line], "come", ref left);
            shown = change.NewEnd;
            var next = changes.Where(other => other.NewStart >= change.NewEnd && other != change).Select(other => (int?)other.NewStart).Min() ?? @new.Length;
            for (; shown < Math.Min(next, change.NewEnd + Around); shown++) WriteLine(markup, " ", shown, @new[shown], "plain", ref left);
        }

        markup.Close();
    }

    private static void WriteLine(MarkupWriter markup, string sign, int line, string text, string kind, ref int left)
    {
        if (left-- <= 0) return;
        markup.Open("div").Element("b", string.Create(CultureInfo.InvariantCulture, $"{sign} {line + 1}"))
            .Element("span", text.Length > 0 ? DisplayLine.CleanLine(text) : " ", ("class", kind)).Close();
    }
}
