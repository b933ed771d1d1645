namespace WaterScript.Tests.Documentation;

/// <summary>A command that a page shows, and what it prints. A line that is only <c>…</c> stands for any number of lines.</summary>
/// <param name="Block">Where it is shown.</param>
/// <param name="Command">What is typed after the prompt.</param>
/// <param name="Output">The lines that are shown under it.</param>
internal sealed record ConsoleExchange(FencedBlock Block, string Command, string[] Output)
{
    private const string Prompt = "$ ";
    private const string Elision = "…";

    /// <summary>The exchanges of a <c>console</c> block, in order.</summary>
    /// <exception cref="FormatException">The block does not begin with a prompt.</exception>
    public static IEnumerable<ConsoleExchange> Of(FencedBlock block)
    {
        var lines = block.Text.TrimEnd('\n').Split('\n');
        if (!IsPrompt(lines[0]))
            throw new FormatException($"{block}: a console block begins with \"{Prompt}\"");

        for (var at = 0; at < lines.Length;)
        {
            var output = lines.Skip(at + 1).TakeWhile(line => !IsPrompt(line)).ToArray();
            yield return new(block, lines[at][Prompt.Length..], output);
            at += 1 + output.Length;
        }
    }

    /// <summary>Whether a command that printed this printed what is shown.</summary>
    public bool IsShown(string printed) => Matches(Output, printed.ReplaceLineEndings("\n").TrimEnd('\n').Split('\n'));

    /// <summary>The exchange as a page shows it.</summary>
    public string Shown(IEnumerable<string> output) => string.Concat(output.Prepend(Prompt + Command).Select(line => line + "\n"));

    /// <summary>What was printed, with as many lines as are shown before the first elision and after the last.</summary>
    public IEnumerable<string> Renewed(string printed)
    {
        var lines = printed.ReplaceLineEndings("\n").TrimEnd('\n').Split('\n');
        var (first, last) = (Array.FindIndex(Output, IsElision), Array.FindLastIndex(Output, IsElision));
        if (first < 0) return lines;
        var after = Output.Length - last - 1;
        return [.. lines.Take(first), Output[first], .. lines.TakeLast(Math.Min(after, Math.Max(0, lines.Length - first)))];
    }

    /// <inheritdoc/>
    public override string ToString() => $"{Block}: {Command}";

    private static bool IsElision(string line) => line.Trim() == Elision;

    private static bool IsPrompt(string line) => line.StartsWith(Prompt, StringComparison.Ordinal);

    private static bool Matches(ReadOnlySpan<string> shown, ReadOnlySpan<string> printed)
    {
        if (shown.IsEmpty)
            return printed.IsEmpty || printed is [""];
        if (!IsElision(shown[0]))
            return !printed.IsEmpty && shown[0].TrimEnd() == printed[0].TrimEnd() && Rest(shown, printed, 1);

        for (var skipped = 0; skipped <= printed.Length; skipped++)
        {
            if (Rest(shown, printed, skipped))
                return true;
        }

        return false;
    }

    private static bool Rest(ReadOnlySpan<string> shown, ReadOnlySpan<string> printed, int skipped) => Matches(shown[1..], printed[skipped..]);
}
