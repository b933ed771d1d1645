using System.Diagnostics;
using System.Globalization;
using WaterScript.Mutation.Rewriting;

namespace WaterScript.Mutation.Driving;

/// <summary>Tries the mutants of a part, and says which no test notices.</summary>
/// <param name="root">The root of the repository.</param>
/// <param name="part">The part.</param>
/// <param name="options">Which of its mutants.</param>
internal sealed class PartRun(string root, Part part, Options options)
{
    private readonly string _copy = WorkingCopy.Of(root);
    private readonly string _folder = Path.Combine(root, "artifacts/mutation", part.Name);

    private const string Survives = "SURVIVES";

    private string Results => Path.Combine(_folder, "results.txt");

    public void Run(TextWriter output)
    {
        var begun = Stopwatch.GetTimestamp();
        var library = new MutatedLibrary(_copy, path => part.HasSource(path) && path.Contains(options.Files, StringComparison.Ordinal));
        var assembly = Path.Combine(_folder, "WaterScript.Compiler.dll");
        library.Write(assembly);
        File.WriteAllLines(Path.Combine(_folder, "refused.txt"), library.Refused.Select(mutation => mutation.ToString()));
        var compiled = library.Mutations.ToList();
        var harmless = Survivors.Read(root);
        var mutations = compiled.Where(mutation => harmless.Contains(Survivors.KeyOf(mutation)) == options.TriesKnown).ToList();
        var known = options.TriesKnown ? "are not known" : "are known";
        output.WriteLine($"{part.Name}: {mutations.Count} mutants, {compiled.Count - mutations.Count} more {known} to change nothing, "
            + $"{library.Count - compiled.Count} do not compile, {Seconds(begun)}");

        var keys = Path.Combine(_folder, "tests.txt");
        JudgeProcess Start() => JudgeProcess.Start(WorkingCopy.TestsOf(_copy), assembly, library.Count, keys);
        var coverage = Coverage.Take(Start, keys, part.HasTests);
        var times = coverage.Cases.Reverse().Select(test => FormattableString.Invariant($"{test.Milliseconds:0} ms {test.Name}"));
        File.WriteAllLines(Path.Combine(_folder, "times.txt"), times);
        foreach (var name in coverage.Failing) output.WriteLine($"  fails without a mutant: {name}");
        output.WriteLine($"  {coverage.Cases.Count} tests, twice, {Seconds(begun)}");
        var chosen = options.TriesAgain ? LeftFromLastTime(mutations) : Sample(mutations);
        output.WriteLine(Report(options.TriesAgain ? chosen : mutations, TryAll(chosen, coverage, Start, output)));
        output.WriteLine($"  {Seconds(begun)}");
    }

    /// <summary>Those that no test noticed, by the list of results; the numbers of their lines may be others by now.</summary>
    private List<Rewriting.Mutation> LeftFromLastTime(List<Rewriting.Mutation> mutations)
    {
        var left = File.ReadAllLines(Results).Where(line => line.StartsWith(Survives, StringComparison.Ordinal)).Select(Survivors.WithoutLine).ToList();
        return [.. mutations.Where(mutation => left.Exists(line => line.Contains(Survivors.KeyOf(mutation), StringComparison.Ordinal)))];
    }

    private List<Rewriting.Mutation> Sample(List<Rewriting.Mutation> mutations)
    {
        var order = mutations.ToArray();
        // Which mutants are tried has to be the same each time, and nothing else.
#pragma warning disable CA5394
        new Random(options.Seed).Shuffle(order);
#pragma warning restore CA5394
        return [.. order.Take(options.Sample).OrderBy(mutation => mutation.Number)];
    }

    private List<(Rewriting.Mutation Mutation, Verdict Verdict)> TryAll(
        List<Rewriting.Mutation> mutations, Coverage coverage, Func<JudgeProcess> start, TextWriter output)
    {
        using var results = new StreamWriter(Results) { AutoFlush = true };
        using var trials = new Trials(coverage, start);
        List<(Rewriting.Mutation, Verdict)> tried = [];
        foreach (var mutation in mutations)
        {
            var begun = Stopwatch.GetTimestamp();
            var verdict = trials.Try(mutation.Number);
            tried.Add((mutation, verdict));
            results.WriteLine($"{(verdict.IsNoticed ? "noticed " : Survives)} {Seconds(begun)} {mutation}: {verdict.Reason}");
            if (!verdict.IsNoticed) output.WriteLine($"  {mutation}: {verdict.Reason}");
        }

        return tried;
    }

    private static string Report(List<Rewriting.Mutation> all, List<(Rewriting.Mutation Mutation, Verdict Verdict)> tried)
    {
        var files = tried.GroupBy(one => one.Mutation.Path).OrderBy(file => file.Key, StringComparer.Ordinal)
            .Select(file => $"  {file.Key}: {ScoreOf([.. file], all.Count(mutation => mutation.Path == file.Key))}");
        return string.Join('\n', [.. files, $"  all: {ScoreOf(tried, all.Count)}"]);
    }

    private static Score ScoreOf(List<(Rewriting.Mutation Mutation, Verdict Verdict)> tried, int all) =>
        new(tried.Count(one => one.Verdict.IsNoticed), tried.Count, all);

    private static string Seconds(long begun) => string.Create(CultureInfo.InvariantCulture, $"{Stopwatch.GetElapsedTime(begun).TotalSeconds:0.0} s");
}
