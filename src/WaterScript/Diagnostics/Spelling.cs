namespace WaterScript.Diagnostics;

/// <summary>Finds the word that was meant by a misspelt one.</summary>
internal static class Spelling
{
    /// <summary>
    /// The word nearest to <paramref name="written"/>, or null where none is near: at most one slip for words of up to four
    /// letters, two up to eight, three beyond. A slip is a letter too many, too few, or wrong, or two neighbours
    /// exchanged (optimal string alignment distance); capitals do not count. Of words equally near the first wins.
    /// </summary>
    public static string? Nearest(string written, IEnumerable<string> words)
    {
        ArgumentNullException.ThrowIfNull(written);
        ArgumentNullException.ThrowIfNull(words);
        var best = Allowance(written) + 1;
        string? nearest = null;
        var lowered = written.ToLowerInvariant();
        foreach (var word in words)
        {
            var distance = Distance(lowered, word.ToLowerInvariant(), best);
            if (distance >= best || distance >= word.Length) continue;
            best = distance;
            nearest = word;
        }

        return nearest;
    }

    /// <summary>
    /// The two words that were written as one, with the blank between them: a known word, and behind it a number or what may follow. Null where it does not
    /// begin with a known one. The longest wins.
    /// </summary>
    /// <param name="written">The word as written.</param>
    /// <param name="words">The words with which it may begin.</param>
    /// <param name="mayFollow">Whether something that is no number may stand behind them.</param>
    public static string? Apart(string written, IEnumerable<string> words, Predicate<string> mayFollow)
    {
        ArgumentNullException.ThrowIfNull(written);
        ArgumentNullException.ThrowIfNull(words);
        var first = words.Where(word => written.Length > word.Length && written.StartsWith(word, StringComparison.OrdinalIgnoreCase))
            .Where(word => char.IsAsciiDigit(written[word.Length]) || mayFollow(written[word.Length..])).MaxBy(word => word.Length);
        return first is null ? null : $"{first} {written[first.Length..]}";
    }

    /// <summary>
    /// Whether a word can only be a slip of the pen for another one, so that it may be written in its place unasked: the only one that is near, one slip
    /// apart, with the same digits, and not a word of its own exchanged for another, such as the <c>n</c> of <c>bed-n</c> or <c>bed</c> for <c>red</c>.
    /// </summary>
    /// <param name="written">The word as written.</param>
    /// <param name="nearest">The word that is to stand in its place.</param>
    /// <param name="words">All words that there are.</param>
    public static bool IsCertain(string written, string nearest, IEnumerable<string> words)
    {
        ArgumentNullException.ThrowIfNull(written);
        ArgumentNullException.ThrowIfNull(nearest);
        ArgumentNullException.ThrowIfNull(words);
        var (slip, meant) = (written.ToLowerInvariant(), nearest.ToLowerInvariant());
        if (Distance(slip, meant, 2) > 1 || !slip.Where(char.IsAsciiDigit).SequenceEqual(meant.Where(char.IsAsciiDigit))) return false;
        if (words.Any(word => word != nearest && Distance(slip, word.ToLowerInvariant(), Near + 1) <= Near)) return false;
        var (slips, parts) = (slip.Split('-'), meant.Split('-'));
        return slips.Length != parts.Length || slips.Zip(parts).All(part => part.First == part.Second || IsSlip(part.First, part.Second));
    }

    /// <summary>Slips within which another word makes it uncertain which was meant.</summary>
    private const int Near = 2;

    /// <summary>Letters of a word of which one may be taken for another.</summary>
    private const int LeastExchanged = 4;

    private static bool IsSlip(string written, string meant) => written.Length == meant.Length && !written.Order().SequenceEqual(meant.Order())
        ? meant.Length >= LeastExchanged
        : meant.Length >= LeastExchanged - 1 && written.Length > 1;

    private static int Allowance(string written) => written.Length switch
    {
        <= 4 => 1,
        <= 8 => 2,
        _ => 3,
    };

    /// <summary>Slips between two words; <paramref name="limit"/> or more is not counted out.</summary>
    private static int Distance(string a, string b, int limit)
    {
        if (Math.Abs(a.Length - b.Length) >= limit) return limit;
        var (before, previous, current) = (new int[b.Length + 1], new int[b.Length + 1], new int[b.Length + 1]);
        for (var j = 0; j <= b.Length; j++) previous[j] = j;
        for (var i = 1; i <= a.Length; i++)
        {
            current[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var swap = a[i - 1] == b[j - 1] ? 0 : 1;
                current[j] = Math.Min(Math.Min(previous[j] + 1, current[j - 1] + 1), previous[j - 1] + swap);
                var exchanged = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
                if (exchanged) current[j] = Math.Min(current[j], before[j - 2] + 1);
            }

            (before, previous, current) = (previous, current, before);
        }

        return previous[b.Length];
    }
}
