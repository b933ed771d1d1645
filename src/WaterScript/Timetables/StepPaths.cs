using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>
/// The waterings of a schedule by their paths, numbered in the order in which they are first met. All its plans share them: with
/// less water a cycle has fewer rounds, and the step of a run must mean the same on every date.
/// </summary>
internal sealed class StepPaths
{
    private readonly List<(string Path, WaterStep Step, bool IsPiece)> _steps = [];
    private readonly Dictionary<(string Path, int Start), int> _numbers = [];

    /// <summary>The path of a number, the step as it is written, and whether a cycle splits it.</summary>
    public (string Path, WaterStep Step, bool IsPiece) this[int number] => _steps[number];

    /// <summary>The number of a path, which is given one when it has none; waterings that begin together share a path, and have one each.</summary>
    public int NumberOf(string path, WaterStep step, bool isPiece)
    {
        var key = (path, step.Origin.Span.Start);
        if (_numbers.TryGetValue(key, out var number)) return number;
        _steps.Add((path, step, isPiece));
        return _numbers[key] = _steps.Count - 1;
    }
}
