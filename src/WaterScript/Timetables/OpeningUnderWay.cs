namespace WaterScript.Timetables;

/// <summary>An opening that runs to come may still lengthen.</summary>
internal sealed class OpeningUnderWay(SwitchedOutput output, long from, long to)
{
    private long _to = to;
    private long _runs = 1;

    /// <summary>When the output turns on.</summary>
    public long From => from + output.Lead;

    /// <summary>Orders openings that begin together.</summary>
    public long Rank => output.Rank;

    /// <summary>Whether it is still on for something: a lead and a lag may leave nothing.</summary>
    public bool IsEmpty => _to + output.Lag <= From;

    /// <summary>Whether a part that begins then, or later, is another opening.</summary>
    public bool IsOverBy(long start) => _to + output.Through < start;

    /// <summary>Takes in a part that touches it.</summary>
    public void Join(long end)
    {
        _to = Math.Max(_to, end);
        _runs++;
    }

    public Opening Numbered(long number) =>
        new(number, From, _to + output.Lag, output.Controller, output.Output, output.Zone, output.Device, _runs);
}
