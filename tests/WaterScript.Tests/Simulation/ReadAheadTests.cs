using WaterScript.Simulation;
using Xunit;

namespace WaterScript.Tests.Simulation;

/// <summary>A sequence that is calculated on another thread is the same sequence.</summary>
public class ReadAheadTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2047)]
    [InlineData(2048)]
    [InlineData(2049)]
    [InlineData(2048 + 511)]
    [InlineData(2048 + 512)]
    [InlineData(2048 + 513)]
    [InlineData(100_000)]
    public void Has_the_same_items_in_the_same_order(int count) =>
        Assert.Equal(Enumerable.Range(1, count), ReadAhead<int>.Of(Enumerable.Range(1, count)));

    /// <summary>As in a browser.</summary>
    [Fact]
    public void Where_no_thread_can_be_started_each_item_is_calculated_when_it_is_read()
    {
        var (calculated, reader) = (0, Environment.CurrentManagedThreadId);
        var items = Enumerable.Range(1, 2000).Select(item => (Item: item, Calculated: ++calculated, Thread: Environment.CurrentManagedThreadId));
        foreach (var (item, number, thread) in ReadAhead<(int, int, int)>.Of(items, hasThreads: false))
            Assert.Equal((calculated, calculated, reader), (item, number, thread));
        Assert.Equal(2000, calculated);
    }

    /// <summary>Readers on all threads of the pool, as when a folder is checked, would wait long for a thread of the pool.</summary>
    [Fact]
    public void Is_calculated_on_a_thread_that_is_not_of_the_pool_where_there_is_much()
    {
        var reader = Environment.CurrentManagedThreadId;
        var writers = ReadAhead<(int Number, bool IsOfPool)>.Of(
            Enumerable.Range(1, 3000).Select(_ => (Environment.CurrentManagedThreadId, Thread.CurrentThread.IsThreadPoolThread))).ToList();
        Assert.All(writers.Take(2048), writer => Assert.Equal(reader, writer.Number));
        Assert.All(writers.Skip(2048), writer => Assert.True(writer.Number != reader && !writer.IsOfPool));
    }

    [Theory]
    [InlineData(1000)]
    [InlineData(5000)]
    public void What_the_sequence_throws_reaches_the_reader_after_the_items_before_it(int count)
    {
        var seen = new List<int>();
        var thrown = Assert.Throws<InvalidOperationException>(() => seen.AddRange(ReadAhead<int>.Of(Failing(count))));
        Assert.Equal("the tank burst", thrown.Message);
        Assert.Equal(Enumerable.Range(1, count), seen);
    }

    [Theory]
    [InlineData(3)]
    [InlineData(5000)]
    public void A_reader_that_leaves_early_does_not_wait_for_the_end(int count)
    {
        Assert.Equal(Enumerable.Range(1, count), ReadAhead<int>.Of(Endless()).Take(count));
    }

    [Fact]
    public void What_the_sequence_did_is_done_when_the_reader_has_the_last_item()
    {
        var count = 0;
        foreach (var _ in ReadAhead<int>.Of(Enumerable.Range(1, 10_000).Select(item => item + count++))) { }
        Assert.Equal(10_000, count);
    }

    /// <summary>
    /// A reader that waits is woken by each block, at once on a busy machine: what it does with the block must not tell the writer that all is over. Of
    /// 800 readings up to four once ended early.
    /// </summary>
    [Fact]
    public void A_reader_that_waits_for_each_block_has_all_items()
    {
        const int blocks = 64, readers = 8, count = blocks * 512;
        var counts = Enumerable.Range(0, readers).AsParallel().WithDegreeOfParallelism(readers)
            .SelectMany(_ => Enumerable.Range(0, Samples.Of(100)).Select(_ => ReadAhead<int>.Of(Slowly(count)).Count())).ToList();
        Assert.All(counts, seen => Assert.Equal(count, seen));
    }

    private static IEnumerable<int> Slowly(int count)
    {
        for (var item = 1; item <= count; item++)
        {
            if (item % 64 == 0) Thread.SpinWait(200);
            yield return item;
        }
    }

    private static IEnumerable<int> Failing(int count)
    {
        for (var item = 1; item <= count; item++) yield return item;
        throw new InvalidOperationException("the tank burst");
    }

    private static IEnumerable<int> Endless()
    {
        for (var item = 1; ; item++) yield return item;
    }
}
