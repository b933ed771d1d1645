using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>
/// The waterings of a schedule by their paths, numbered in the order in which they are first met. All its plans share them: with
/// less water a cycle has fewer rounds, and the step of a run must mean the same on every date.
/// </summary>
internal sealed class StepPaths
{
    private readonly List<(string Path, WaterStep Step)> _steps = [];
    private readonly Dictionary<string, int> _numbers = new(StringComparer.Ordinal);

    /// <summary>The path of a number, and the step as it is written.</summary>
    public (string Path, WaterStep Step) this[int number] => _steps[number];

    /// <summary>The number of a path, which is given one when it has none.</summary>
    public int NumberOf(string path, WaterStep step)
    {
        if (_numbers.TryGetValue(path, out var number)) return number;
        _steps.Add((path, step));
        return _numbers[path] = _steps.Count - 1;
    }
}
