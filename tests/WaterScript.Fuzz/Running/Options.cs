using System.Globalization;
using WaterScript.Fuzz.Inputs;
using WaterScript.Tests.Documentation;

namespace WaterScript.Fuzz.Running;

/// <summary>What the command line says.</summary>
internal sealed record Options
{
    /// <summary>How to call it.</summary>
    public const string Usage = """
        WaterScript.Fuzz [--minutes N | --count N] [--seed S] [--workers W] [--cases FOLDER]
        WaterScript.Fuzz --seed S --input K      makes one input again, shows it and what it comes to
        WaterScript.Fuzz --case PATH             sends a file, or a folder with a site.water, through all stages
        """;

    /// <summary>What inputs follow from.</summary>
    public ulong Seed { get; private init; } = 1;

    /// <summary>How long to go on.</summary>
    public double Minutes { get; private init; } = 5;

    /// <summary>How many inputs to make.</summary>
    public long Count { get; private init; } = long.MaxValue;

    /// <summary>How many processes share them.</summary>
    public int Workers { get; private init; } = 1;

    /// <summary>The one input to make.</summary>
    public long? Input { get; private init; }

    /// <summary>The case to run.</summary>
    public string? Case { get; private init; }

    /// <summary>Where cases of what fails go.</summary>
    public string Cases { get; private init; } = Path.Combine(Repository.Root, CaseFolder.Name);

    /// <summary>Which worker this process is; null for the one that starts them.</summary>
    public int? Worker { get; private init; }

    /// <summary>The first input of a worker.</summary>
    public long First { get; private init; }

    /// <summary>Reads them.</summary>
    /// <exception cref="FormatException">They cannot be read.</exception>
    public static Options Read(string[] arguments)
    {
        var options = new Options();
        for (var at = 0; at < arguments.Length; at += 2)
        {
            if (at + 1 == arguments.Length) throw new FormatException($"{arguments[at]} needs a value");
            options = options.With(arguments[at], arguments[at + 1]);
        }

        return options.Count < long.MaxValue && !arguments.Contains("--minutes") ? options with { Minutes = double.MaxValue } : options;
    }

    /// <summary>The same as arguments of a worker.</summary>
    public IEnumerable<string> ForWorker(int worker, long first, double minutesLeft) => ForWorker(worker, first, Count, minutesLeft);

    /// <summary>The same as arguments of a worker that runs one input again.</summary>
    public IEnumerable<string> ForOneInput(int worker, long input) => ForWorker(worker, input, input + 1, double.MaxValue);

    private string[] ForWorker(int worker, long first, long count, double minutes) => string.Create(
        CultureInfo.InvariantCulture,
        $"--seed\n{Seed}\n--minutes\n{minutes:R}\n--count\n{count}\n--workers\n{Workers}\n--worker\n{worker}\n--first\n{first}\n--cases\n{Cases}")
            .Split('\n');

    private Options With(string name, string value)
    {
        var culture = CultureInfo.InvariantCulture;
        return name switch
        {
            "--seed" => this with { Seed = ulong.Parse(value, culture) },
            "--minutes" => this with { Minutes = double.Parse(value, culture) },
            "--count" => this with { Count = long.Parse(value, culture) },
            "--workers" => this with { Workers = int.Parse(value, culture) },
            "--input" => this with { Input = long.Parse(value, culture) },
            "--case" => this with { Case = value },
            "--cases" => this with { Cases = Path.GetFullPath(value) },
            "--worker" => this with { Worker = int.Parse(value, culture) },
            "--first" => this with { First = long.Parse(value, culture) },
            _ => throw new FormatException($"there is no {name}"),
        };
    }
}
