namespace WaterScript.Tests.Documentation;

/// <summary>A fenced block of code of a Markdown page.</summary>
/// <param name="Page">The page's path from the root of the repository.</param>
/// <param name="Line">The line of its opening fence, from 1.</param>
/// <param name="Info">The words after the opening fence.</param>
/// <param name="Text">What stands between the fences, each line ended with a line feed.</param>
internal sealed record FencedBlock(string Page, int Line, string[] Info, string Text)
{
    private const string Fence = "```";

    /// <summary>The block's language: the first word of its info string, or empty.</summary>
    public string Language => Info is [var first, ..] ? first : "";

    /// <summary>All fenced blocks of a page, in order.</summary>
    /// <exception cref="FormatException">A fence is not closed.</exception>
    public static IEnumerable<FencedBlock> Of(string page, string markdown)
    {
        var lines = markdown.ReplaceLineEndings("\n").Split('\n');
        for (var open = 0; open < lines.Length; open++)
        {
            if (!lines[open].StartsWith(Fence, StringComparison.Ordinal))
                continue;

            var close = Array.FindIndex(lines, open + 1, line => line.TrimEnd() == Fence);
            if (close < 0)
                throw new FormatException($"{page}:{open + 1}: this fence is not closed");

            var info = lines[open][Fence.Length..].Split(' ', StringSplitOptions.RemoveEmptyEntries);
            yield return new(page, open + 1, info, string.Concat(lines[(open + 1)..close].Select(line => line + "\n")));
            open = close;
        }
    }

    /// <summary>All blocks of the pages of the repository in a language.</summary>
    public static IEnumerable<FencedBlock> InPages(string language) =>
        Repository.Pages
            .SelectMany(page => Of(page, Repository.Read(page)))
            .Where(block => block.Language == language);

    /// <inheritdoc/>
    public override string ToString() => $"{Page}:{Line}";
}
