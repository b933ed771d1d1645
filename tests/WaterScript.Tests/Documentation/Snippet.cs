namespace WaterScript.Tests.Documentation;

/// <summary>What compiling a snippet of a page must come to.</summary>
internal enum Verdict
{
    /// <summary>No error, and nothing written in an unusual form.</summary>
    Compiles,

    /// <summary>Exactly one finding, of the rule that is named.</summary>
    Fails,
}

/// <summary>
/// A whole file made of a fenced block of a page. The block's info string says how:
/// <list type="bullet">
/// <item><c>water</c>: the block is a whole file;</item>
/// <item><c>water file NAME</c>: the block is a file that whole files of the page may include;</item>
/// <item><c>water prelude</c>: the block is the site into which the fragments of the page are put;</item>
/// <item><c>water top</c>: statements that stand after the prelude;</item>
/// <item><c>water schedule</c>: statements of a schedule; a day, a start and steps are added where they lack;</item>
/// <item><c>water steps</c>: steps of a schedule;</item>
/// <item>then <c>each</c>: every line of the block is a fragment of its own;</item>
/// <item>then <c>fails SLUG</c>: see <see cref="Verdict"/>.</item>
/// </list>
/// </summary>
/// <param name="Block">Where it comes from.</param>
/// <param name="Fragment">The part that the page shows.</param>
/// <param name="Text">The whole file.</param>
/// <param name="Verdict">What compiling it must come to.</param>
/// <param name="Slug">The rule that <see cref="Verdict.Fails"/> names; otherwise empty.</param>
internal sealed record Snippet(FencedBlock Block, string Fragment, string Text, Verdict Verdict, string Slug)
{
    /// <summary>The snippets of a page, in order.</summary>
    /// <param name="blocks">All its <c>water</c> blocks.</param>
    /// <exception cref="FormatException">An info string is not one of those above.</exception>
    public static IEnumerable<Snippet> Of(IReadOnlyList<FencedBlock> blocks)
    {
        var prelude = blocks.SingleOrDefault(block => block.Info is [_, "prelude"])?.Text ?? "";
        return blocks.Where(block => block.Info is not [_, "file", _]).SelectMany(block => Of(block, prelude));
    }

    /// <summary>The files of a page that others include, by name.</summary>
    public static IReadOnlyDictionary<string, string> Included(IEnumerable<FencedBlock> blocks) =>
        blocks.Where(block => block.Info is [_, "file", _]).ToDictionary(block => block.Info[2], block => block.Text);

    /// <inheritdoc/>
    public override string ToString() => $"{Block}: {Fragment.Trim()}";

    private static IEnumerable<Snippet> Of(FencedBlock block, string prelude)
    {
        var words = new Queue<string>(block.Info.Skip(1));
        var wrap = words.TryPeek(out var first) && first is "prelude" or "top" or "schedule" or "steps" ? words.Dequeue() : "";
        var fragments = Take(words, "each") ? Lines(block.Text) : [block.Text];
        var verdict = Take(words, "fails") ? Verdict.Fails : Verdict.Compiles;
        var slug = verdict == Verdict.Fails ? words.Dequeue() : "";
        if (words.Count > 0)
            throw new FormatException($"{block}: cannot read the info string \"{string.Join(' ', block.Info)}\"");

        return fragments.Select(fragment => new Snippet(block, fragment, Wrap(wrap, fragment, prelude), verdict, slug));
    }

    private static bool Take(Queue<string> words, string word)
    {
        if (!words.TryPeek(out var next) || next != word)
            return false;
        words.Dequeue();
        return true;
    }

    private static string[] Lines(string text) => text.Split('\n', StringSplitOptions.RemoveEmptyEntries);

    private static string Wrap(string wrap, string fragment, string prelude) => wrap switch
    {
        "top" => $"{prelude}\n{fragment}",
        "schedule" => $"{prelude}\nschedule example {{\n{fragment}\n{MissingFrom(fragment)}}}\n",
        "steps" => $"{prelude}\nschedule example {{\nevery day\nstart at 06:00\nsteps {{\n{fragment}\n}}\n}}\n",
        _ => fragment,
    };

    private static string MissingFrom(string schedule)
    {
        var starts = Lines(schedule).Select(line => line.TrimStart()).ToList();
        bool Has(params string[] words) => starts.Exists(line => words.Any(word => line.StartsWith(word, StringComparison.Ordinal)));

        return (Has("every", "on ", "manual", "start after") ? "" : "every day\n")
            + (Has("start", "finish", "manual") ? "" : "start at 06:00\n")
            + (Has("steps") ? "" : "steps { water lawn for 10 min }\n");
    }
}
