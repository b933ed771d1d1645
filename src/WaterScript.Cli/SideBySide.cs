namespace WaterScript.Cli;

/// <summary>Work on many things at once, with the results in their order, of which only a few are there at a time.</summary>
internal static class SideBySide
{
    /// <summary>So many for each core: one that takes long does not leave the others without work.</summary>
    private const int AheadByCore = 8;

    /// <summary>Works on all.</summary>
    /// <param name="things">What is worked on.</param>
    /// <param name="work">Does it, anywhere.</param>
    /// <param name="take">Takes a result, here, which waits for it and may throw what the work threw.</param>
    public static IEnumerable<TTaken> Of<T, TDone, TTaken>(IEnumerable<T> things, Func<T, TDone> work, Func<T, Func<TDone>, TTaken> take)
    {
        using var left = things.GetEnumerator();
        var begun = new Queue<(T Thing, Task<TDone> Task)>();
        var most = AheadByCore * Environment.ProcessorCount;
        while (true)
        {
            while (begun.Count < most && left.MoveNext())
            {
                var thing = left.Current;
                begun.Enqueue((thing, Task.Run(() => work(thing))));
            }

            if (!begun.TryDequeue(out var next)) yield break;
            yield return take(next.Thing, () => next.Task.GetAwaiter().GetResult());
        }
    }
}
