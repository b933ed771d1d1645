using System.Collections.Immutable;

namespace WaterScript.Documents.Charts;

/// <summary>A point of a curve.</summary>
/// <param name="At">When, in Unix seconds.</param>
/// <param name="Value">L/min, L, A or VA.</param>
internal readonly record struct CurveCorner(long At, decimal Value);

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
        var (from, to) = (CountBefore(first + 1), CountBefore(last));
        return [new(first, At(first, CountBefore(first + 1))), .. _corners[from..Math.Max(from, to)], new(last, At(last, to))];
    }

    /// <summary>The value at a moment, before or after a jump in it.</summary>
    /// <param name="moment">When.</param>
    /// <param name="count">How many corners lie before it.</param>
    private decimal At(long moment, int count)
    {
        var before = count - 1;
        if (before < 0) return _corners[0].Value;
        if (before == _corners.Count - 1) return _corners[before].Value;
        var (a, b) = (_corners[before], _corners[before + 1]);
        return a.At == long.MinValue ? a.Value : a.Value + ((b.Value - a.Value) * (moment - a.At) / (b.At - a.At));
    }

    /// <summary>How many corners lie before a moment; corners are in order of time.</summary>
    private int CountBefore(long moment)
    {
        var (low, high) = (0, _corners.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (_corners[middle].At < moment) low = middle + 1;
            else high = middle;
        }

        return low;
    }
}
