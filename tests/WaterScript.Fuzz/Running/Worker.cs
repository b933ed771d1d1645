using System.Diagnostics;
using System.Globalization;
using WaterScript.Fuzz.Inputs;
using WaterScript.Fuzz.Shrinking;
using WaterScript.Fuzz.Stages;

namespace WaterScript.Fuzz.Running;

/// <summary>Makes inputs and sends them through all stages, in one process, and says on standard output where it is.</summary>
internal sealed class Worker(Options options)
{
    private const int InputsBetweenCounts = 25;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    private readonly HashSet<string> _known = new(StringComparer.Ordinal);

    /// <summary>Goes on to the end of its time or of its inputs.</summary>
    public void Run()
    {
        using var output = new StreamWriter(Console.OpenStandardOutput()) { AutoFlush = true, NewLine = "\n" };
        var maker = new InputMaker(Corpus.Read(), options.Seed);
        var watch = Stopwatch.StartNew();
        var counts = new StageCounts();
        var sinceCounts = 0;
        for (var index = options.First; index < options.Count && watch.Elapsed.TotalMinutes < options.Minutes; index += options.Workers)
        {
            output.Write(string.Create(CultureInfo.InvariantCulture, $"{Message.Begins}{index}\n"));
            var input = maker.Make(index);
            if (AllStages.Run(input, counts) is { } failure) Report(output, index, input, failure);
            if (++sinceCounts < InputsBetweenCounts) continue;
            output.Write($"{Message.Counts}{counts.ToLine()}\n");
            (counts, sinceCounts) = (new StageCounts(), 0);
        }

        output.Write($"{Message.Counts}{counts.ToLine()}\n");
    }

    private void Report(StreamWriter output, long index, FuzzInput input, Failure failure)
    {
        void Write(char message, string? path = null) =>
            output.Write(string.Create(CultureInfo.InvariantCulture, $"{message}{index}\t{failure.Signature}{(path is null ? "" : "\t" + path)}\n"));
        if (!_known.Add(failure.Signature))
        {
            Write(Message.Again);
            return;
        }

        Write(Message.Shrinks);
        var small = new Shrinker(other => AllStages.Run(other)?.Signature, Patience).Shrink(input, failure.Signature);
        Write(Message.Found, CaseFolder.Write(options.Cases, CaseOf(small, failure.Signature, options.Seed, index)));
    }

    /// <summary>A failing input as a case, named after what is wrong with it.</summary>
    internal static SiteFiles CaseOf(FuzzInput input, string signature, ulong seed, long index)
    {
        const int longest = 70;
        var words = string.Join('-', signature.Split([.. signature.Where(letter => !char.IsAsciiLetterOrDigit(letter)).Distinct()],
            StringSplitOptions.RemoveEmptyEntries)).ToLowerInvariant();
        var name = string.Create(CultureInfo.InvariantCulture, $"{words[..Math.Min(words.Length, longest)].TrimEnd('-')}-{seed}-{index}");
        return CaseFolder.Keep(input, name);
    }
}
