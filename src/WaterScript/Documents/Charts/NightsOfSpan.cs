namespace WaterScript.Documents.Charts;

/// <summary>The nights of a span, from noon to noon, and which of them something touches.</summary>
/// <param name="noons">The noon of each night and that after the last, in Unix seconds.</param>
internal sealed class NightsOfSpan(long[] noons)
{
    /// <summary>How many nights.</summary>
    public int Count => noons.Length - 1;

    /// <summary>Where a night begins; of the number after the last, where the last ends.</summary>
    public long NoonOf(int night) => noons[night];

    /// <summary>For each night what touches it, in the order given.</summary>
    /// <param name="all">Anything.</param>
    /// <param name="times">Its first second and the second after its last; of a moment both are the same.</param>
    public List<T>[] Split<T>(IEnumerable<T> all, Func<T, (long From, long Until)> times)
    {
        var nights = Enumerable.Range(0, Count).Select(_ => new List<T>()).ToArray();
        foreach (var each in all)
        {
            var (from, until) = times(each);
            for (var night = Math.Max(0, NightOf(from)); night < Count && (noons[night] < until || noons[night] <= from); night++) nights[night].Add(each);
        }

        return nights;
    }

    /// <summary>The night of an instant; -1 before the first, and <see cref="Count"/> after the last.</summary>
    private int NightOf(long instant)
    {
        var found = Array.BinarySearch(noons, instant);
        return found >= 0 ? found : ~found - 1;
    }
}
