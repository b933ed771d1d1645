namespace WaterScript.Documents.Charts.Drawing;

/// <summary>Puts things of some width under one another where they would overlap.</summary>
internal sealed class PackedRows
{
    private const double Gap = 8;
    private readonly List<List<(double Left, double Right)>> _rows = [];

    /// <summary>How many rows there are.</summary>
    public int Count => _rows.Count;

    /// <summary>The first row, from 0, in which there is room.</summary>
    public int Place(double left, double right)
    {
        var row = _rows.FindIndex(taken => taken.TrueForAll(other => right + Gap <= other.Left || left >= other.Right + Gap));
        if (row < 0)
        {
            row = _rows.Count;
            _rows.Add([]);
        }

        _rows[row].Add((left, right));
        return row;
    }
}
