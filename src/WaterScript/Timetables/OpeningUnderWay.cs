using System.Collections.Immutable;

namespace WaterScript.Timetables;

/// <summary>An opening that runs to come may still lengthen.</summary>
internal sealed class OpeningUnderWay
{
    private readonly SwitchedOutput _output;
    private readonly long _from;
    private readonly ImmutableArray<long> _runs;
    private ImmutableArray<long>.Builder? _joined;
    private long _to;

    public OpeningUnderWay(SwitchedOutput output, long from, long to, long run)
    {
        _output = output;
        _from = from;
        _to = to;
        _runs = [run];
    }

    /// <summary>When the output turns on.</summary>
    public long From => _from + _output.Lead;

    /// <summary>Orders openings that begin together.</summary>
    public long Rank => _output.Rank;

    /// <summary>Whether it is still on for something: a lead and a lag may leave nothing.</summary>
    public bool IsEmpty => _to + _output.Lag <= From;

    /// <summary>Whether a part that begins then, or later, is another opening.</summary>
    public bool IsOverBy(long start) => _to + _output.Through < start;

    /// <summary>Takes in a part that touches it.</summary>
    public void Join(long end, long run)
    {
        _to = Math.Max(_to, end);
        _joined ??= _runs.ToBuilder();
        _joined.Add(run);
    }

    /// <summary>The opening, when nothing can join it any more.</summary>
    public Opening Numbered(long number) =>
        new(number, From, _to + _output.Lag, _output.Controller, _output.Output, _output.Zone, _output.Device, _joined?.ToImmutable() ?? _runs);
}
