namespace WaterScript.Timetables;

/// <summary>
/// Turns passes in order of start into runs in order of start. Only passes that are under way are held, which are few: the
/// one at hand is followed without touching the queue as long as nothing else comes before its next run.
/// </summary>
internal static class RunStream
{
    /// <summary>The runs of the passes.</summary>
    /// <param name="passes">In order of start.</param>
    /// <param name="plans">The plans of each schedule, by index.</param>
    /// <param name="keeper">Says what is left of a run.</param>
    /// <param name="taken">Is told what is taken; may be null.</param>
    public static IEnumerable<Run> Of(IEnumerable<Pass> passes, SchedulePlans[] plans, Keeper keeper, Taken? taken)
    {
        using var coming = passes.GetEnumerator();
        var underWay = new PriorityQueue<Progress, RunKey>();
        var more = coming.MoveNext();
        while (more || underWay.Count > 0)
        {
            while (more && (!underWay.TryPeek(out _, out var next) || coming.Current.Start <= next.Start))
            {
                var plan = plans[coming.Current.Schedule].On(coming.Current.Day);
                Keeper.TellLeftOut(coming.Current, plan, taken);
                Enqueue(underWay, new Progress(coming.Current, plan, Index: 0));
                more = coming.MoveNext();
            }

            if (!underWay.TryDequeue(out var progress, out _)) continue;
            var limit = Earlier(underWay, more ? coming.Current.Start : long.MaxValue);
            do
            {
                var kept = keeper.Keep(progress.Pass, progress.Planned, taken);
                if (kept > 0) yield return progress.Run(kept);
                progress = progress.Next;
            }
            while (!progress.IsOver && progress.Key.CompareTo(limit) < 0);
            Enqueue(underWay, progress);
        }
    }

    private static void Enqueue(PriorityQueue<Progress, RunKey> queue, Progress progress)
    {
        if (!progress.IsOver) queue.Enqueue(progress, progress.Key);
    }

    /// <summary>A pass that starts at the same second as a run may have one that goes before it, so the limit is its bare start.</summary>
    private static RunKey Earlier(PriorityQueue<Progress, RunKey> queue, long nextPass)
    {
        var limit = new RunKey(nextPass, long.MinValue, default);
        return queue.TryPeek(out _, out var key) && key.CompareTo(limit) < 0 ? key : limit;
    }

    /// <summary>A pass under way.</summary>
    private readonly record struct Progress(Pass Pass, PassPlan Plan, int Index)
    {
        public bool IsOver => Index >= Plan.Runs.Length;

        public PlannedRun Planned => Plan.Runs[Index];

        public Progress Next => this with { Index = Index + 1 };

        public RunKey Key => new(Pass.Start + Planned.Offset, Planned.Rank, Pass);

        /// <summary>A run that is cut short ends without the overlap that its next one would have had.</summary>
        public Run Run(long seconds)
        {
            var planned = Planned;
            var start = Pass.Start + planned.Offset;
            var overlap = seconds == planned.Seconds ? planned.Overlap : 0;
            return new Run(start, start + seconds, overlap, planned.Zone, Pass.Schedule, Pass.Day, Pass.StartNumber, Pass.Number, Pass.Start, planned.Step);
        }
    }

    /// <summary>Orders runs; the pass settles it where two passes of a schedule water one zone from the same second.</summary>
    private readonly record struct RunKey(long Start, long Rank, Pass Pass) : IComparable<RunKey>
    {
        public int CompareTo(RunKey other)
        {
            if (Start != other.Start) return Start.CompareTo(other.Start);
            return Rank != other.Rank ? Rank.CompareTo(other.Rank) : Pass.CompareTo(other.Pass);
        }
    }
}
