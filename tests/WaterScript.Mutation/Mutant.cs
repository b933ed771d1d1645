namespace WaterScript.Mutation;

/// <summary>What the mutated library asks at each place: whether that is the one that is to be wrong. It notes which places were asked for.</summary>
public static class Mutant
{
    /// <summary>No mutant: the library does what its source says.</summary>
    public const int None = -1;

    private static bool[] _reached = [];
    private static volatile bool _isOver;

    /// <summary>The mutant that is in force.</summary>
    public static int Chosen { get; set; } = None;

    /// <summary>Stops what runs at the next mutant that it comes to: the only way to end a loop that has no end without ending the process.</summary>
    internal static bool IsOver
    {
        get => _isOver;
        set => _isOver = value;
    }

    /// <summary>Whether this mutant is in force.</summary>
    /// <param name="number">Its number.</param>
    public static bool Is(int number)
    {
        if (_isOver) throw new TimeoutException("the mutant takes too long");
        _reached[number] = true;
        return number == Chosen;
    }

    /// <summary>Sets aside room for what is reached.</summary>
    internal static void Prepare(int count) => _reached = new bool[count];

    /// <summary>The mutants that were asked for since the last time.</summary>
    internal static IReadOnlyList<int> TakeReached()
    {
        List<int> numbers = [];
        for (var number = 0; number < _reached.Length; number++)
        {
            if (!_reached[number]) continue;
            numbers.Add(number);
            _reached[number] = false;
        }

        return numbers;
    }
}
