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

    /// <inheritdoc/>
    public override string ToString() => $"{Block}: {Command}";

    private static bool IsPrompt(string line) => line.StartsWith(Prompt, StringComparison.Ordinal);

    private static bool Matches(ReadOnlySpan<string> shown, ReadOnlySpan<string> printed)
    {
        if (shown.IsEmpty)
            return printed.IsEmpty || printed is [""];
        if (shown[0].Trim() != Elision)
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
