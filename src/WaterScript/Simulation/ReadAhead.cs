using System.Collections.Concurrent;

namespace WaterScript.Simulation;

/// <summary>
/// Calculates a sequence on another thread, where there can be one, a few blocks ahead of whoever reads it. Blocks are used over and over, so that as little
/// is held as if it were read at once. What the sequence does on its way to the next item must not touch what the reader touches.
/// </summary>
internal sealed class ReadAhead<T>
{
    private const int Blocks = 4;
    private const int ItemsInBlock = 512;

    /// <summary>So many items are calculated in less time than it takes to start a thread and to wait for it.</summary>
    private const int ItemsBeforeThread = 2_048;

    private readonly BlockingCollection<List<T>> _empty = [];
    private readonly BlockingCollection<List<T>> _filled = [];

    private ReadAhead()
    {
        for (var i = 0; i < Blocks; i++) _empty.Add(new List<T>(ItemsInBlock));
    }

    /// <summary>
    /// The same items in the same order; the first are calculated as they are read, since they may be all. What the sequence throws, the reader gets; when
    /// the reader has the last item, or leaves before it, the other thread is done.
    /// </summary>
    /// <param name="items">The sequence.</param>
    public static IEnumerable<T> Of(IEnumerable<T> items) => Of(items, hasThreads: !OperatingSystem.IsBrowser());

    /// <inheritdoc cref="Of(IEnumerable{T})"/>
    /// <param name="items">The sequence.</param>
    /// <param name="hasThreads">Whether another thread can be started; else each item is calculated when it is read.</param>
    public static IEnumerable<T> Of(IEnumerable<T> items, bool hasThreads) => hasThreads ? OnAnotherThread(items) : items;

    private static IEnumerable<T> OnAnotherThread(IEnumerable<T> items)
    {
        using var coming = items.GetEnumerator();
        for (var i = 0; i < ItemsBeforeThread; i++)
        {
            if (!coming.MoveNext()) yield break;
            yield return coming.Current;
        }

        var readAhead = new ReadAhead<T>();
        // A thread of its own: readers may hold all threads of the pool, and would wait for one that never gets its turn.
        var filling = Task.Factory.StartNew(() => readAhead.Fill(coming), CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
        try
        {
            foreach (var block in readAhead._filled.GetConsumingEnumerable())
            {
                foreach (var item in block) yield return item;
                block.Clear();
                readAhead._empty.Add(block);
            }
        }
        finally
        {
            readAhead._empty.CompleteAdding();
            filling.GetAwaiter().GetResult();
        }
    }

    private void Fill(IEnumerator<T> coming)
    {
        try
        {
            while (_empty.TryTake(out var block, Timeout.Infinite) && Fill(block, coming)) { }
        }
        finally
        {
            _filled.CompleteAdding();
        }
    }

    /// <summary>Fills a block and hands it on, also where the sequence throws; false when there is no more.</summary>
    private bool Fill(List<T> block, IEnumerator<T> coming)
    {
        try
        {
            while (block.Count < ItemsInBlock && coming.MoveNext()) block.Add(coming.Current);
            // Asked before it is handed on: from then on the block is the reader's, who may have emptied it already.
            return block.Count == ItemsInBlock;
        }
        finally
        {
            if (block.Count > 0) _filled.Add(block);
        }
    }
}
