using System.Globalization;

namespace WaterScript.Mutation.Driving;

/// <summary>Tries mutants one after the other: in one process, as long as none leaves something behind in it, or ends it.</summary>
/// <param name="coverage">What reaches them.</param>
/// <param name="start">Starts a process.</param>
internal sealed class Trials(Coverage coverage, Func<JudgeProcess> start) : IDisposable
{
    private JudgeProcess? _shared;

    /// <summary>What the tests say of a mutant.</summary>
    public Verdict Try(int mutant)
    {
        var (reaching, keeping) = (coverage.Reaching(mutant), coverage.Keeping(mutant));
        if (reaching.Count == 0 && keeping.Count == 0) return new Verdict(false, "no test reaches it");
        if (!coverage.IsReachedAgain(mutant)) return TryAlone(mutant, keeping);
        var answer = TryShared(mutant, reaching);
        if (answer == "spoilt") return TryAlone(mutant, reaching);
        // What is kept is asked for by tests that never come to where it was made.
        return answer == "survived" && keeping.Count > 0 ? TryAlone(mutant, keeping) : VerdictOf(answer);
    }

    public void Dispose() => _shared?.Dispose();

    private string TryShared(int mutant, IReadOnlyList<TestCase> tests)
    {
        _shared ??= start();
        var answer = _shared.Ask(Question(mutant, tests));
        if (answer is null or "late" or "spoilt")
        {
            _shared.Dispose();
            _shared = null;
        }

        return answer ?? "ended";
    }

    private Verdict TryAlone(int mutant, IReadOnlyList<TestCase> tests)
    {
        using var judge = start();
        return VerdictOf(judge.Ask(Question(mutant, tests)) ?? "ended");
    }

    private static string Question(int mutant, IReadOnlyList<TestCase> tests) => FormattableString.Invariant(
        $"try {mutant} {string.Join(',', tests.Select(test => FormattableString.Invariant($"{test.Index}:{test.Milliseconds:0}")))}");

    private Verdict VerdictOf(string answer) => answer.Split(' ') switch
    {
        ["noticed", var test] => new Verdict(true, coverage.Cases.First(known => known.Index == int.Parse(test, CultureInfo.InvariantCulture)).Name),
        ["survived"] => new Verdict(false, "all tests pass"),
        ["late"] => new Verdict(true, "a test takes too long"),
        _ => new Verdict(true, "the process ends"),
    };
}

/// <summary>Whether a mutant is noticed.</summary>
/// <param name="IsNoticed">Whether it is.</param>
/// <param name="Reason">The test that notices it, or why none does.</param>
internal sealed record Verdict(bool IsNoticed, string Reason);
