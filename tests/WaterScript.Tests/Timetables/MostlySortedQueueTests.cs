using FsCheck;
using FsCheck.Fluent;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Timetables;

/// <summary>The queue gives what a stable sort would give, in whatever order things come and go.</summary>
public class MostlySortedQueueTests
{
    /// <summary>The judge is the priority queue of the base library, with the order of arrival as the last word.</summary>
    [Fact]
    public void Gives_what_a_priority_queue_gives()
    {
        var steps = Gen.Choose(-3, 30).ArrayOf(400);
        Prop.ForAll(Arb.From(steps), Same).Check(Config.QuickThrowOnFailure.WithMaxTest(300));
    }

    /// <summary>A number below zero takes one out; others come with that number as their time.</summary>
    private static void Same(int[] steps)
    {
        var (queue, judge) = (new MostlySortedQueue<int>(), new PriorityQueue<int, StreamOrder>());
        for (var i = 0; i < steps.Length; i++)
        {
            if (steps[i] < 0) TakeOne(queue, judge);
            else
            {
                // Some of them before 1970, where the time of an empty place is later.
                var order = new StreamOrder(steps[i] - 15, steps[i] % 3, 0);
                queue.Add(i, order);
                judge.Enqueue(i, order with { Sequence = i });
            }

            Assert.Equal(judge.Count, queue.Count);
        }

        while (judge.Count > 0) TakeOne(queue, judge);
    }

    private static void TakeOne(MostlySortedQueue<int> queue, PriorityQueue<int, StreamOrder> judge)
    {
        if (!judge.TryDequeue(out var expected, out var order)) return;
        Assert.Equal(order with { Sequence = 0 }, queue.FirstOrder);
        Assert.Equal(expected, queue.First);
        queue.RemoveFirst();
    }
}
