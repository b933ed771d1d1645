namespace WaterScript.Answers.Audit;

/// <summary>Keeps the first so many of what comes in any order, and counts all of it.</summary>
/// <typeparam name="TKey">Orders it; no two are the same.</typeparam>
/// <typeparam name="TItem">What is kept.</typeparam>
internal sealed class FirstInOrder<TKey, TItem>(int most)
    where TKey : IComparable<TKey>
{
    private static readonly Comparer<TKey> LastFirst = Comparer<TKey>.Create((one, other) => other.CompareTo(one));

    private readonly PriorityQueue<TItem, TKey> _kept = new(LastFirst);

    /// <summary>How many came.</summary>
    public long Count { get; private set; }

    /// <summary>Takes one in.</summary>
    public void Add(TKey key, TItem item)
    {
        Count++;
        if (_kept.Count < most) _kept.Enqueue(item, key);
        else if (_kept.TryPeek(out _, out var last) && key.CompareTo(last) < 0) _kept.EnqueueDequeue(item, key);
    }

    /// <summary>Those that are kept, in order.</summary>
    public List<TItem> InOrder() => [.. _kept.UnorderedItems.OrderBy(kept => kept.Priority).Select(kept => kept.Element)];
}
