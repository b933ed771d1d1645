using System.Globalization;

namespace WaterScript.Fuzz.Stages;

/// <summary>How many inputs each stage had, and for how many there was something to do.</summary>
public sealed class StageCounts
{
    private readonly long[] _done = new long[AllStages.Names.Length];
    private readonly long[] _seen = new long[AllStages.Names.Length];
    private readonly long[] _milliseconds = new long[AllStages.Names.Length];
    private readonly TimeSpan[] _times = new TimeSpan[AllStages.Names.Length];

    /// <summary>How many inputs there were.</summary>
    public long Inputs { get; private set; }

    /// <summary>Counts an input, whatever comes of it.</summary>
    public void Begin() => Inputs++;

    /// <summary>Counts one.</summary>
    public void Add(int stage, bool hadWork, TimeSpan time)
    {
        _seen[stage]++;
        if (hadWork) _done[stage]++;
        _times[stage] += time;
        _milliseconds[stage] = (long)_times[stage].TotalMilliseconds;
    }

    /// <summary>All numbers on a line, as <see cref="Add(string)"/> takes them.</summary>
    public string ToLine() => string.Create(CultureInfo.InvariantCulture, $"{Inputs} ")
        + string.Join(' ', Enumerable.Range(0, _seen.Length)
        .Select(stage => string.Create(CultureInfo.InvariantCulture, $"{_seen[stage]}/{_done[stage]}/{_milliseconds[stage]}")));

    /// <summary>Adds the numbers of a line.</summary>
    public void Add(string line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var words = line.Split(' ');
        Inputs += long.Parse(words[0], CultureInfo.InvariantCulture);
        foreach (var (stage, numbers) in words.Skip(1).Index())
        {
            var parts = numbers.Split('/');
            _seen[stage] += long.Parse(parts[0], CultureInfo.InvariantCulture);
            _done[stage] += long.Parse(parts[1], CultureInfo.InvariantCulture);
            _milliseconds[stage] += long.Parse(parts[2], CultureInfo.InvariantCulture);
        }
    }

    /// <summary>A table for people.</summary>
    public string ToTable() => string.Concat(AllStages.Names.Select((name, stage) =>
        string.Create(CultureInfo.InvariantCulture,
            $"  {name,-20}{_seen[stage],10} inputs {_done[stage],10} with something to do {_milliseconds[stage] / 1000.0,10:0.0} s\n")));
}
