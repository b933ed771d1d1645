namespace WaterScript.Answers.Diff;

/// <summary>Numbers for names, the same in both versions.</summary>
internal sealed class Names
{
    private readonly Dictionary<string, int> _numbers = new(StringComparer.Ordinal);
    private readonly List<string> _names = [];

    /// <summary>How many there are.</summary>
    public int Count => _names.Count;

    /// <summary>The number of a name, from 0; one that was not there is added.</summary>
    public int NumberOf(string name)
    {
        if (_numbers.TryGetValue(name, out var number)) return number;
        _names.Add(name);
        return _numbers[name] = _names.Count - 1;
    }

    /// <summary>The name that has a number.</summary>
    public string NameOf(int number) => _names[number];
}
