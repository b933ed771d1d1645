using System.Globalization;

namespace WaterScript.Mutation.Driving;

/// <summary>What the command line asks for.</summary>
internal sealed class Options
{
    public const string Usage = """
        WaterScript.Mutation [PART...] [--files TEXT] [--sample N] [--seed S] [--no-build]

          PART        a line of tests/mutation/parts.txt; without one, the copy of the repository is built, and no more
          --files     only files with this in their path
          --sample    so many mutants of each part, in place of all
          --seed      which ones; 1 if not given
          --no-build  the copy is as it should be
        """;

    public List<string> Parts { get; } = [];

    public string Files { get; private set; } = "";

    public int Sample { get; private set; } = int.MaxValue;

    public int Seed { get; private set; } = 1;

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
