using System.Globalization;

namespace WaterScript.Mutation.Driving;

/// <summary>Which tests reach which mutants.</summary>
internal sealed class Coverage
{
    private readonly ILookup<int, TestCase> _first;
    private readonly ILookup<int, TestCase> _again;

    private readonly IReadOnlySet<int> _found;

    private Coverage(IEnumerable<TestCase> cases, IReadOnlyList<string> failing, IReadOnlySet<int> found)
    {
        _found = found;
        Cases = [.. cases.OrderBy(test => test.Milliseconds)];
        Failing = failing;
        _first = Cases.SelectMany(test => test.ReachedFirst, (test, mutant) => (test, mutant)).ToLookup(pair => pair.mutant, pair => pair.test);
        _again = Cases.SelectMany(test => test.ReachedAgain, (test, mutant) => (test, mutant)).ToLookup(pair => pair.mutant, pair => pair.test);
    }

    /// <summary>The tests that pass, the quickest first.</summary>
    public IReadOnlyList<TestCase> Cases { get; }

    /// <summary>Tests that fail without a mutant, which can judge none.</summary>
    public IReadOnlyList<string> Failing { get; }

    /// <summary>Runs all tests twice.</summary>
    /// <param name="start">Starts a process.</param>
    /// <param name="keys">The file that it writes all tests to.</param>
    /// <param name="isAsked">Which classes of tests are asked.</param>
    public static Coverage Take(Func<JudgeProcess> start, string keys, Func<string, bool> isAsked)
    {
        using var judge = start();
        var found = Numbers(judge.Ask("find")!);
        var asked = File.ReadLines(keys).Select((line, index) => (Words: line.Split('\t'), index)).Where(test => isAsked(test.Words[0])).ToList();
        var first = asked.Select(test => Reach(judge, test.index)).ToList();
        var again = asked.Select(test => Reach(judge, test.index)).ToList();
        List<TestCase> cases = [];
        List<string> failing = [];
        for (var number = 0; number < asked.Count; number++)
        {
            var ((words, index), cold, warm) = (asked[number], first[number], again[number]);
            if (cold.Passed && warm.Passed) cases.Add(new TestCase(index, words[0], words[1], warm.Milliseconds, cold.Reached, warm.Reached));
            else failing.Add(words[1]);
        }

        return new Coverage(cases, failing, found);
    }

    /// <summary>The tests that reach a mutant, the quickest first.</summary>
    public IReadOnlyList<TestCase> Reaching(int mutant) => [.. _first[mutant].Union(_again[mutant]).OrderBy(test => test.Milliseconds)];

    /// <summary>Whether a test reaches it every time, and not only the first.</summary>
    public bool IsReachedAgain(int mutant) => _again[mutant].Any();

    /// <summary>
    /// The tests that may know a mutant that was reached once and is kept from then on, so that one that comes later changes nothing: all where looking for
    /// tests has reached it, or where no test reaches it again; else those of the classes that have kept something.
    /// </summary>
    public IReadOnlyList<TestCase> Keeping(int mutant)
    {
        if (_found.Contains(mutant) || (_first[mutant].Any() && !_again[mutant].Any())) return [.. Reaching(mutant), .. Cases.Except(Reaching(mutant))];
        var classes = _first[mutant].Except(_again[mutant]).Select(test => test.Class).ToHashSet();
        return [.. Cases.Where(test => classes.Contains(test.Class))];
    }

    private static (bool Passed, double Milliseconds, IReadOnlySet<int> Reached) Reach(JudgeProcess judge, int test)
    {
        var answer = judge.Ask(FormattableString.Invariant($"reach {test}"))
            ?? throw new InvalidOperationException($"test {test} ends the process without a mutant");
        var words = answer.Split(' ');
        return (words[0] == "passed", double.Parse(words[1], CultureInfo.InvariantCulture), Numbers(words[2]));
    }

    private static HashSet<int> Numbers(string text) =>
        [.. text.Split(',', StringSplitOptions.RemoveEmptyEntries).Select(number => int.Parse(number, CultureInfo.InvariantCulture))];
}
