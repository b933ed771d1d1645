using WaterScript.Timetables;

namespace WaterScript.Simulation;

/// <summary>A pass as far as it has come: from its first run to the end of its latest.</summary>
internal sealed class PassUnderWay
{
    private int _number;
    private long _over;

    /// <summary>Index of its schedule.</summary>
    public int Schedule { get; private set; }

    /// <summary>Number of the start that it is calculated from.</summary>
    public int Start { get; private set; }

    /// <summary>The date that it belongs to.</summary>
    public int Day { get; private set; }

    /// <summary>Start of its first run.</summary>
    public long First { get; private set; }

    /// <summary>End of its runs so far.</summary>
    public long End { get; set; }

    /// <summary>Whether somebody has it and may keep it. Others are used again for another pass.</summary>
    public bool IsReported { get; set; }

    /// <summary>Becomes the pass of its first run.</summary>
    /// <param name="run">The run.</param>
    /// <param name="over">When its last step is over at the latest, in Unix seconds.</param>
    public void Begin(in Run run, long over)
    {
        (Schedule, Start, Day, _number) = (run.Schedule, run.StartNumber, run.Day, run.Pass);
        (First, End, _over) = (run.Start, run.Start, over);
    }

    /// <summary>Whether it is that run's pass.</summary>
    public bool IsOf(in Run run) => Schedule == run.Schedule && Day == run.Day && Start == run.StartNumber && _number == run.Pass;

    /// <summary>Whether no run of it can come at a moment or later.</summary>
    public bool IsOverBy(long moment) => _over <= moment && End <= moment;
}

/// <summary>
/// Finds passes that run at once, while their runs stream past. A pass counts from its first run to the end of its last, what
/// lies between two of them included.
/// </summary>
/// <param name="timetable">Knows how long passes last.</param>
/// <param name="met">Called with two passes once, as soon as it shows; the second is the one that begins later.</param>
internal sealed class PassesUnderWay(Timetable timetable, Action<PassUnderWay, PassUnderWay> met)
{
    private readonly List<PassUnderWay> _passes = [];
    private readonly Stack<PassUnderWay> _spare = [];

    /// <summary>Takes in the next run.</summary>
    public void Visit(in Run run)
    {
        timetable.Budget?.Spend(_passes.Count * 3L);
        var own = Find(run);
        var (end, isNew) = (own?.End ?? run.Start, own is null);
        own ??= Begin(run);
        own.End = Math.Max(end, run.End);
        foreach (var other in _passes)
        {
            if (other == own || other.End <= own.First || other.First >= own.End) continue;
            var hasMet = !isNew && other.First < end;
            if (!hasMet) Report(other, own);
        }

        if (isNew) _passes.Add(own);
    }

    private PassUnderWay Begin(in Run run)
    {
        if (!_spare.TryPop(out var pass)) pass = new PassUnderWay();
        pass.Begin(run, run.PassStart + timetable.PlanOn(run.Schedule, run.Day).Seconds);
        return pass;
    }

    /// <summary>
    /// The pass of a run, if it is under way. One that is over is let go, unless another began before its end and is still under way: a run to come
    /// may show that it lay between two runs of that one.
    /// </summary>
    private PassUnderWay? Find(in Run run)
    {
        PassUnderWay? found = null;
        var since = long.MaxValue;
        foreach (var pass in _passes)
        {
            if (pass.IsOf(run)) found = pass;
            else if (pass.IsOverBy(run.Start)) continue;
            since = Math.Min(since, pass.First);
        }

        var kept = 0;
        for (var i = 0; i < _passes.Count; i++)
        {
            var pass = _passes[i];
            if (pass == found || !pass.IsOverBy(run.Start) || pass.End > since) _passes[kept++] = pass;
            else if (!pass.IsReported) _spare.Push(pass);
        }

        _passes.RemoveRange(kept, _passes.Count - kept);
        return found;
    }

    private void Report(PassUnderWay other, PassUnderWay own)
    {
        other.IsReported = own.IsReported = true;
        if (other.First <= own.First) met(other, own);
        else met(own, other);
    }
}
