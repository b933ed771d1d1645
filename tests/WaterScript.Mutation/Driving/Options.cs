using System.Globalization;

namespace WaterScript.Mutation.Driving;

/// <summary>What the command line asks for.</summary>
internal sealed class Options
{
    public const string Usage = """
        WaterScript.Mutation [PART...] [--files TEXT] [--sample N] [--seed S] [--known] [--again] [--no-build]

          PART        a line of tests/mutation/parts.txt; without one, the copy of the repository is built, and no more
          --files     only files with this in their path
          --sample    so many mutants of each part, in place of all
          --seed      which ones; 1 if not given
          --known     those of survivors.md in place of all others, to see whether a test notices one
          --again     those that no test noticed the last time
          --no-build  the copy is as it should be
        """;

    public List<string> Parts { get; } = [];

    public string Files { get; private set; } = "";

    public int Sample { get; private set; } = int.MaxValue;

    public int Seed { get; private set; } = 1;

    /// <summary>Whether those that are known to change nothing are tried, in place of all others.</summary>
    public bool TriesKnown { get; private set; }

    /// <summary>Whether only those are tried that no test noticed the last time.</summary>
    public bool TriesAgain { get; private set; }

    public bool Builds { get; private set; } = true;

    public static Options Read(IEnumerable<string> words)
    {
        var options = new Options();
        var rest = new Queue<string>(words);
        while (rest.TryDequeue(out var word))
        {
            switch (word)
            {
                case "--files": options.Files = Value(rest, word); break;
                case "--sample": options.Sample = int.Parse(Value(rest, word), CultureInfo.InvariantCulture); break;
                case "--seed": options.Seed = int.Parse(Value(rest, word), CultureInfo.InvariantCulture); break;
                case "--known": options.TriesKnown = true; break;
                case "--again": options.TriesAgain = true; break;
                case "--no-build": options.Builds = false; break;
                case ['-', ..]: throw new FormatException($"{word} is no option");
                default: options.Parts.Add(word); break;
            }
        }

        return options;
    }

    private static string Value(Queue<string> rest, string option) =>
        rest.TryDequeue(out var value) ? value : throw new FormatException($"{option} needs a value");
}
