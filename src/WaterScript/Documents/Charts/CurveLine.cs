using System.Collections.Immutable;

namespace WaterScript.Documents.Charts;

/// <summary>Takes in the corners of a curve while a timetable streams past, and keeps those of the days that are shown.</summary>
/// <param name="from">First second that is shown.</param>
/// <param name="until">The second after the last.</param>
/// <param name="start">The value before the first corner.</param>
internal sealed class CurveLine(long from, long until, decimal start)
{
    private readonly List<CurveCorner> _corners = [new(long.MinValue, start)];

    /// <summary>The value from the latest corner on.</summary>
    public decimal Value => _corners[^1].Value;

    /// <summary>Whether it ever changes while it is shown.</summary>
    public bool IsFlat => _corners.All(corner => corner.Value == _corners[0].Value);

    /// <summary>The value jumps.</summary>
    public void Step(long at, decimal value)
    {
        if (value == Value) return;
        if (_corners.Count > 1 && _corners[^1].At == at && _corners[^2].At == at) _corners.RemoveAt(_corners.Count - 1);
        else Add(at, Value);
        if (value != Value) Add(at, value);
    }

    /// <summary>The value has changed evenly since the corner before.</summary>
    public void Add(long at, decimal value)
    {
        if (_corners[^1].At >= until) return;
        if (at <= from) _corners.Clear();
        if (at == _corners.LastOrDefault().At && _corners.Count > 1 && _corners[^1].Value == value) return;
        _corners.Add(new(at, value));
    }

    /// <summary>The corners of a day.</summary>
    public ImmutableArray<CurveCorner> Between(long first, long last)
    {
        var inside = _corners.Where(corner => corner.At > first && corner.At < last);
        return [new(first, At(first)), .. inside, new(last, At(last))];
    }

    /// <summary>The value at a moment, after a jump in it.</summary>
    private decimal At(long moment)
    {
        var before = _corners.FindLastIndex(corner => corner.At <= moment);
        if (before < 0) return _corners[0].Value;
        if (before == _corners.Count - 1) return _corners[before].Value;
        var (a, b) = (_corners[before], _corners[before + 1]);
        return a.At == long.MinValue ? a.Value : a.Value + ((b.Value - a.Value) * (moment - a.At) / (b.At - a.At));
    }
}
