using System.Text;

namespace WaterScript.Text.Lines;

/// <summary>
/// The one writer of Markdown, for comments on a change. Nothing that it is given is read as markup, a link, a mention or another
/// line (CommonMark 0.31; GitHub Flavored Markdown 0.29, 6.9 autolinks).
/// </summary>
/// <param name="output">Where to; lines end with LF.</param>
internal sealed class MarkdownLines(TextWriter output) : IReportLines
{
    /// <summary>Any ASCII punctuation may have a backslash before it (CommonMark 0.31, 2.4); these can be markup in the middle of a line.</summary>
    private const string Marks = "\\`*_{}[]<>#|~&@!$";

    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Writes Markdown to a stream, which stays open.</summary>
    public static void WriteTo(Stream stream, Action<MarkdownLines> write)
    {
        ArgumentNullException.ThrowIfNull(write);
        using var text = new StreamWriter(stream, Utf8, leaveOpen: true);
        write(new MarkdownLines(text));
    }

    /// <inheritdoc/>
    public void Heading(string words) => output.Write($"**{Escaped(words)}**\n");

    /// <summary>The line that says what the report is about, and more behind it.</summary>
    public void Heading(string words, string more) => output.Write($"**{Escaped(words)}** {Escaped(more)}\n");

    /// <summary>A title above a report that is one of several.</summary>
    public void Title(string words) => output.Write($"\n### {Escaped(words)}\n\n");

    /// <summary>A title above what follows on the same page.</summary>
    public void Section(string words) => output.Write($"\n### {Escaped(words)}\n");

    /// <summary>A table; nothing where it has no rows.</summary>
    /// <param name="titles">Over the columns.</param>
    /// <param name="rows">The rows.</param>
    /// <param name="areNumbers">Whether all columns but the first are of numbers, which stand to the right.</param>
    public void Table(IReadOnlyList<string> titles, IReadOnlyCollection<MarkdownCell[]> rows, bool areNumbers = false)
    {
        ArgumentNullException.ThrowIfNull(titles);
        ArgumentNullException.ThrowIfNull(rows);
        if (rows.Count == 0) return;
        output.Write($"\n|{string.Concat(titles.Select(title => title.Length > 0 ? $" {Escaped(title)} |" : " |"))}\n");
        output.Write($"|{string.Concat(titles.Select((_, column) => areNumbers && column > 0 ? " ---: |" : " --- |"))}\n");
        foreach (var row in rows)
            output.Write($"|{string.Concat(row.Select(cell => cell.IsStrong ? $" **{Escaped(cell.Words)}** |" : $" {Escaped(cell.Words)} |"))}\n");
    }

    /// <summary>A finding with the name of its rule, which is of letters and hyphens.</summary>
    public void Finding(string words, string rule, string place) => output.Write($"\n{Escaped(words)} (`{rule}`, {Escaped(place)})\n");

    /// <inheritdoc/>
    public void Sentence(string words) => output.Write($"\n{Escaped(words)}\n");

    /// <inheritdoc/>
    public void Part(string title, IEnumerable<string> items)
    {
        ArgumentNullException.ThrowIfNull(items);
        foreach (var (index, item) in items.Index())
        {
            if (index == 0) output.Write($"\n{Escaped(title)}:\n\n");
            output.Write($"- {Escaped(item)}\n");
        }
    }

    /// <summary>A text on one line that says what it says and does nothing.</summary>
    internal static string Escaped(string text)
    {
        var line = DisplayLine.CleanLine(text).Trim();
        var start = LengthOfListMark(line);
        var escaped = new StringBuilder(line.Length);
        for (var i = 0; i < line.Length; i++)
        {
            if (IsLinked(line, i)) escaped.Append(Escape(HiddenCharacter.NameOf(new Rune(line[i]))));
            else if (IsNumberSign(line, i)) escaped.Append('`').Append(line[i]).Append('`');
            else escaped.Append(i == start - 1 ? $"\\{line[i]}" : Escape(line[i].ToString()));
        }

        return escaped.ToString();
    }

    private static string Escape(string text) =>
        string.Concat(text.Select(letter => Marks.Contains(letter, StringComparison.Ordinal) ? $"\\{letter}" : letter.ToString()));

    /// <summary>How much of the beginning would make a list, a rule or the underline of a heading (CommonMark 0.31, 4 and 5).</summary>
    private static int LengthOfListMark(string line)
    {
        if (line is ['-' or '+' or '=', ..]) return 1;
        var digits = 0;
        while (digits < line.Length && char.IsAsciiDigit(line[digits])) digits++;
        return digits > 0 && digits < line.Length && line[digits] is '.' or ')' ? digits + 1 : 0;
    }

    /// <summary>
    /// Whether a mark makes a link or a mention although it has a backslash before it, since those are looked for in the text
    /// that is left of the markup: <c>@name</c>, <c>a@b</c>, <c>://</c>, <c>www.</c>.
    /// </summary>
    private static bool IsLinked(string line, int i) => line[i] switch
    {
        '@' => i + 1 < line.Length && char.IsLetterOrDigit(line[i + 1]),
        ':' => line.AsSpan(i).StartsWith("://") || line.AsSpan(..i).EndsWith("mailto", StringComparison.OrdinalIgnoreCase),
        '.' => line.AsSpan(..i).EndsWith("www", StringComparison.OrdinalIgnoreCase),
        _ => false,
    };

    /// <summary>Whether a mark makes a number the number of an issue: <c>#3</c>, <c>GH-3</c>. Beds have numbers too, so it stays as it is, in code.</summary>
    private static bool IsNumberSign(string line, int i) => i + 1 < line.Length && char.IsAsciiDigit(line[i + 1])
        && (line[i] == '#' || (line[i] == '-' && line.AsSpan(..i).EndsWith("GH", StringComparison.OrdinalIgnoreCase)));
}
