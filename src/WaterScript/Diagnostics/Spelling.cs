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
