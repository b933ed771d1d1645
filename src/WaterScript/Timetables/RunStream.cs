using System.Collections.Immutable;
using WaterScript.Diagnostics;

namespace WaterScript.Timetables;

/// <summary>
/// Turns passes in order of start into runs in order of start. Only passes that are under way are held, which are few: the
/// one at hand is followed without touching the queue as long as nothing else comes before its next run. One that is over is
/// used for the next, so that a year of passes takes no more memory than a day of them.
/// </summary>
internal static class RunStream
{
    private const int WorkOfRun = 6;

    /// <summary>The runs of the passes.</summary>
    /// <param name="passes">In order of start.</param>
    /// <param name="plans">The plans of each schedule, by index.</param>
    /// <param name="cancellationFilter">Says what is left of a run.</param>
    /// <param name="skipped">Called with what is taken; may be null.</param>
    /// <param name="budget">Counts the runs; may be null.</param>
    public static IEnumerable<Run> Of(IEnumerable<Pass> passes, SchedulePlans[] plans, CancellationFilter cancellationFilter, SkippedWater? skipped,
        WorkBudget? budget)
    {
        using var coming = passes.GetEnumerator();
        var underWay = new PriorityQueue<PassUnderWay, StreamOrder>();
        var spare = new Stack<PassUnderWay>();
        var more = coming.MoveNext();
        var next = more ? coming.Current : default;
        long sequence = 0;
        long number = 0;
        while (more || underWay.Count > 0)
        {
            while (more && (!underWay.TryPeek(out _, out var first) || next.Start <= first.Time))
            {
                var plan = plans[next.Schedule].On(next.Day);
                CancellationFilter.ReportLeftOut(next, plan, skipped);
                if (!spare.TryPop(out var begun)) begun = new PassUnderWay();
                begun.Begin(next, plan, sequence++, cancellationFilter.TakesNothingOf(next));
                Keep(begun, underWay, spare);
                more = coming.MoveNext();
                if (more) next = coming.Current;
            }

            if (!underWay.TryDequeue(out var pass, out _)) continue;
            var limit = Earlier(underWay, more ? next.Start : long.MaxValue);
            do
            {
                budget?.Spend(WorkOfRun, pass.Pass.Schedule);
                var kept = pass.IsWhole ? pass.Next.Seconds : cancellationFilter.Keep(pass.Pass, pass.Next, skipped);
                if (kept > 0)
                {
                    var dose = pass.Next.Injector < 0 ? 0 : DoseOf(pass, plans[pass.Pass.Schedule], cancellationFilter, budget);
                    var run = pass.RunOf(kept, ++number) with { Dose = dose };
                    skipped?.Watered(run.Zone, run.Start, run.End);
                    yield return run;
                }

                pass.Advance();
            }
            while (!pass.IsOver && pass.Order.CompareTo(limit) < 0);
            Keep(pass, underWay, spare);
        }
    }

    /// <summary>
    /// A dose of a size of its own must fit into the shortest that is left of the runs of its part, which are those of the pass that begin together.
    /// </summary>
    private static long DoseOf(PassUnderWay pass, SchedulePlans plans, CancellationFilter cancellationFilter, WorkBudget? budget)
    {
        if (plans.StepOf(pass.Next.Step).Step.Dose is not { } dose) return 0;
        foreach (ref readonly var run in pass.BesideNext)
        {
            budget?.Spend(1, pass.Pass.Schedule);
            if (cancellationFilter.Keep(pass.Pass, run, skipped: null) is > 0 and var left && left < dose.Needs) return -1;
        }

        return dose.Seconds;
    }

    private static void Keep(PassUnderWay pass, PriorityQueue<PassUnderWay, StreamOrder> underWay, Stack<PassUnderWay> spare)
    {
        if (pass.IsOver) spare.Push(pass);
        else underWay.Enqueue(pass, pass.Order);
    }

    /// <summary>A pass that starts at the same second as a run may have one that goes before it, so the limit is its bare start.</summary>
    private static StreamOrder Earlier(PriorityQueue<PassUnderWay, StreamOrder> queue, long nextPass)
    {
        var limit = new StreamOrder(nextPass, long.MinValue, long.MinValue);
        return queue.TryPeek(out _, out var order) && order.CompareTo(limit) < 0 ? order : limit;
    }

    /// <summary>A pass and its next run.</summary>
    private sealed class PassUnderWay
    {
        private ImmutableArray<PlannedRun> _runs;
        private Pass _pass;
        private long _sequence;
        private int _index;

        public ref readonly Pass Pass => ref _pass;

        /// <summary>Whether nothing can be taken of it.</summary>
        public bool IsWhole { get; private set; }

        public bool IsOver => _index >= _runs.Length;

        public ref readonly PlannedRun Next => ref _runs.ItemRef(_index);

        /// <summary>The planned runs that begin with the next one, itself among them.</summary>
        public ReadOnlySpan<PlannedRun> BesideNext
        {
            get
            {
                var (first, end) = (_index, _index + 1);
                while (first > 0 && _runs[first - 1].Offset == Next.Offset) first--;
                while (end < _runs.Length && _runs[end].Offset == Next.Offset) end++;
                return _runs.AsSpan()[first..end];
            }
        }

        public StreamOrder Order => new(_pass.Start + Next.Offset, Next.Rank, _sequence);

        public void Begin(in Pass pass, PassPlan plan, long sequence, bool isWhole)
        {
            IsWhole = isWhole;
            _runs = plan.Runs;
            _pass = pass;
            _sequence = sequence;
            _index = 0;
        }

        public void Advance() => _index++;

        /// <summary>A run that is cut short ends without the overlap that its next one would have had.</summary>
        public Run RunOf(long seconds, long number)
        {
            ref readonly var planned = ref Next;
            var start = _pass.Start + planned.Offset;
            var overlap = seconds == planned.Seconds ? planned.Overlap : 0;
            return new Run(number, start, start + seconds, overlap, planned.Zone, _pass.Schedule, _pass.Day, _pass.StartNumber, _pass.Number, _pass.Start,
                planned.Step, planned.Injector, planned.Soak);
        }
    }
}
