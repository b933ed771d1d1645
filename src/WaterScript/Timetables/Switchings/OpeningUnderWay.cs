using System.Collections.Immutable;

namespace WaterScript.Timetables.Switchings;

/// <summary>An opening that runs to come may still lengthen.</summary>
internal sealed class OpeningUnderWay
{
    private SwitchedOutput? _output;
    private ImmutableArray<long>.Builder? _joined;
    private long _run;
    private long _from;
    private long _to;
    private long _notBefore;

    /// <summary>When the output turns on.</summary>
    public long From => Math.Max(_from + _output!.Lead, _notBefore);

    /// <summary>Whether it is still on for something: a lead and a lag may leave nothing.</summary>
    public bool IsEmpty => _to + _output!.Lag <= From;

    /// <summary>Becomes the opening that a part of a run begins.</summary>
    public void Begin(SwitchedOutput output, long from, long to, long run, long notBefore)
    {
        (_output, _from, _to, _run, _notBefore, _joined) = (output, from, to, run, notBefore, null);
        output.Current = this;
    }

    /// <summary>Whether a part that begins then, or later, is another opening.</summary>
    public bool IsOverBy(long start) => _to + _output!.Through < start;

    /// <summary>Takes in a part that touches it.</summary>
    public void Join(long end, long run)
    {
        _to = Math.Max(_to, end);
        _joined ??= ImmutableArray.CreateBuilder<long>();
        _joined.Add(run);
    }

    /// <summary>The opening, when nothing can join it any more.</summary>
    public Opening Numbered(long number)
    {
        var output = _output!;
        var runs = _joined is null ? new RunNumbers(_run) : new RunNumbers(_run, _joined.ToImmutable());
        return new Opening(number, From, _to + output.Lag, output.Controller, output.Output, output.Zone, output.Device, runs);
    }

    /// <summary>Lets go of its output, which begins another one with the next part.</summary>
    public void End()
    {
        if (_output!.Current == this) _output.Current = null;
    }
}
